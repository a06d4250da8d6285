"""What was said of one unit, on the way from atoms to findings."""

from dataclasses import dataclass

from bot.reading.lexicon.sense import Sense
from bot.reading.result import QuestionKind
from bot.reading.tokens.amounts import Amount
from bot.reading.tokens.spoken_day import SpokenDay
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind
from scheduling.values import Value


@dataclass(frozen=True)
class Told:
    """One finding without its place and day."""

    kind: EntryKind
    value: Value | None = None
    note: str = ""


class Unclear(Exception):  # noqa: N818 - not a failure: the way a question leaves a deep reading
    """What was said can be read in several ways or in none; ``options`` are the readings."""

    def __init__(self, kind: QuestionKind, options: tuple[str, ...] = ()) -> None:
        super().__init__(kind)
        self.kind = kind
        self.options = options


@dataclass
class Words:
    """What was said of one unit, sorted; each detail is taken out by the finding that uses it."""

    senses: list[Sense]
    amounts: list[Amount]
    till: SpokenDay | None = None
    grafted_on: SpokenDay | None = None
    whither: str | None = None
    note: str | None = None
    food_seen: Amount | None = None
    """Frames of food named before feeding was: they were there, not given."""
    into: bool = False


@dataclass(frozen=True)
class Around:
    """What decides a word with several meanings.

    ``checks`` are the open checks of the unit, None when nothing at all is known of the yards;
    ``before`` is what was said last.
    """

    checks: frozenset[CheckKind] | None
    before: tuple[Told, ...] = ()
