"""What the parser must know to understand a text: the yards, the day, the talk so far."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.values import Value


@dataclass(frozen=True)
class YardUnits:
    """A yard's name and the units that stand in it."""

    name: str
    units: tuple[UnitName, ...] = ()


@dataclass(frozen=True)
class LastFinding:
    """The finding recorded last in the conversation, for "same" and "ditto"."""

    kind: EntryKind
    value: Value | None
    units: tuple[Place, ...]


@dataclass(frozen=True)
class Situation:
    """Everything outside the text that decides its meaning.

    Attributes:
        today: the local date of the yard or person.
        yards: the crew's yards. With none at all, any unit is taken to exist in a yard "home".
        current_yard: the yard the conversation is in, by name.
        open_checks: gives what is due or foreseen at each unit. Called lazily, once a text
            tells something of a unit, because it may work the whole calendar out.
        last_said: the last finding recorded in this conversation.
        spoken_of: the units of the message that is quoted; a finding that names none is of them.
        by_consent: the text came over a channel whose carrier asks that "cancel" stop messages
            and "yes" start them.
        asked_yes_or_no: the last answer was a question that waits for a yes.
        feeder_litres: what one feeder holds, for "fed 2a one jar".
        people: gives the names of the crew's people. Called lazily, for a text that may name one.
        newest: gives what was noted last of the queen at a unit, or of a placing; None for nothing.
    """

    today: date
    yards: tuple[YardUnits, ...] = ()
    current_yard: str | None = None
    open_checks: Callable[[], Mapping[Place, tuple[CheckKind, ...]]] = dict
    last_said: LastFinding | None = None
    spoken_of: tuple[Place, ...] = ()
    by_consent: bool = False
    asked_yes_or_no: bool = False
    feeder_litres: float = 0.946
    people: Callable[[], Sequence[str]] = tuple
    newest: Callable[[Place], EntryKind | None] = lambda _place: None
