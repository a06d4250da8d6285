"""What was said of one unit, on the way from elements to findings."""

from dataclasses import dataclass
from datetime import date

from bot.reading.lexicon.measures import Measure
from bot.reading.lexicon.sense import Sense
from bot.reading.result import QuestionKind
from bot.reading.tokens.amounts import Amount, Substance
from bot.reading.tokens.dates import SpokenDay
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind
from scheduling.values import Value


@dataclass(frozen=True)
class PartialFinding:
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
class ClauseContent:
    """What was said of one unit, sorted; each detail is taken out by the finding that uses it."""

    senses: list[Sense]
    amounts: list[Amount]
    until: SpokenDay | None = None
    grafted_on: SpokenDay | None = None
    destination: str | None = None
    note: str | None = None
    food_seen: Amount | None = None
    """Frames of food named before feeding was: they were there, not given."""
    into: bool = False


@dataclass(frozen=True)
class UnitContext:
    """What decides an ambiguous word.

    ``checks`` are the open checks of the unit, None when nothing at all is known of the yards;
    ``before`` is what was said last.
    """

    checks: frozenset[CheckKind] | None
    before: tuple[PartialFinding, ...] = ()


@dataclass(frozen=True)
class DayContext:
    """Today, the day spoken of, and what one feeder holds."""

    today: date
    on: date
    feeder_litres: float


def take_amount(
    content: ClauseContent, measure: Measure, *of: Substance | None, most: float
) -> float | None:
    """Take one amount out; None if there is none.

    Raises:
        Unclear: two different amounts, or more than can be.
    """
    found = [a for a in content.amounts if a.measure is measure and (not of or a.of in of)]
    if not found:
        return None
    if len({amount.number for amount in found}) > 1 or not 0 <= found[0].number <= most:
        raise Unclear(QuestionKind.BAD_NUMBER)
    content.amounts = [amount for amount in content.amounts if amount not in found]
    return found[0].number
