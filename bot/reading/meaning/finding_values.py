"""A finding without its place and day, and the numbers that it takes of what was said."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta

from bot.reading.lexicon.measures import (
    LONGEST_PUT_OFF_DAYS,
    MOST_BEETLES,
    MOST_FONDANT_KG,
    MOST_FRAMES,
    MOST_SHAKES,
    MOST_SYRUP_LITRES,
    OLDEST_CELL_DAYS,
    OLDEST_CELL_EGG_DAYS,
    OLDEST_VIRGIN_DAYS,
    Measure,
)
from bot.reading.lexicon.sense import Sense
from bot.reading.result import QuestionKind
from bot.reading.tokens.amounts import Amount, Substance
from bot.reading.tokens.dates import SpokenDay
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind
from scheduling.values import (
    CellAge,
    Fate,
    Feed,
    MakeUp,
    PutOff,
    Stores,
    Taken,
    TrapCount,
    Value,
    VirginAge,
)


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
    ``before`` is what was said last; ``newest`` is what was noted last of the unit's queen.
    """

    checks: frozenset[CheckKind] | None
    before: tuple[PartialFinding, ...] = ()
    newest: EntryKind | None = None


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


Fill = Callable[[ClauseContent, DayContext], Value | None]


def filled_in(
    kind: EntryKind, value: Value | None, content: ClauseContent, days: DayContext
) -> PartialFinding:
    """Give the finding with its numbers, which are taken out of ``content``.

    Raises:
        Unclear: a number cannot be, or a needed day is missing.
    """
    if kind in (EntryKind.BROOD_ADDED, EntryKind.BEES_ADDED):
        return PartialFinding(kind, None, _boost(kind, content))
    if kind is EntryKind.QUEEN_TAKEN:
        return PartialFinding(kind, _taken(value, content))
    fill = _FILLS.get(kind)
    return PartialFinding(kind, value if fill is None or value is not None else fill(content, days))


def _cell_age(content: ClauseContent, days: DayContext) -> Value | None:
    """Give the age of cells placed, from their days or the day they were grafted."""
    from_graft = take_amount(content, Measure.DAYS, most=OLDEST_CELL_DAYS)
    from_egg = take_amount(content, Measure.EGG_DAYS, most=OLDEST_CELL_EGG_DAYS)
    if content.grafted_on is not None:
        grafted = content.grafted_on.behind(days.today)
        content.grafted_on = None
        if grafted is None:
            raise Unclear(QuestionKind.WHICH_DATE)
        age = float((days.on - grafted).days)
        if not 0 <= age <= OLDEST_CELL_DAYS or from_graft not in (None, age):
            raise Unclear(QuestionKind.BAD_NUMBER)
        from_graft = age
    if from_graft is not None and from_egg is not None:
        raise Unclear(QuestionKind.BAD_NUMBER)
    if from_egg is not None:
        return CellAge(days_since_egg=from_egg)
    return None if from_graft is None else CellAge(days_since_graft=from_graft)


def _virgin_age(content: ClauseContent, _: DayContext) -> Value | None:
    """Give the age of a virgin placed."""
    age = take_amount(content, Measure.DAYS, most=OLDEST_VIRGIN_DAYS)
    return None if age is None else VirginAge(age)


def _make_up(content: ClauseContent, _: DayContext) -> Value | None:
    """Give what a unit was stocked with."""
    sealed = take_amount(content, Measure.FRAMES, Substance.SEALED_BROOD, most=MOST_FRAMES)
    brood = take_amount(content, Measure.FRAMES, Substance.BROOD, most=MOST_FRAMES)
    share = take_amount(content, Measure.PERCENT, most=100)
    if sealed is not None and brood is None and share is None:
        brood, share = sealed, 100.0
    elif sealed is not None:
        raise Unclear(QuestionKind.BAD_NUMBER)
    made = MakeUp(
        brood_frames=brood,
        sealed_share=None if share is None else round(share / 100, 3),
        bee_frames=take_amount(content, Measure.FRAMES, Substance.BEES, most=MOST_FRAMES),
        nurse_shakes=take_amount(content, Measure.SHAKES, most=MOST_SHAKES),
        food_frames=take_amount(
            content, Measure.FRAMES, Substance.FOOD, Substance.HONEY, most=MOST_FRAMES
        ),
    )
    return None if made == MakeUp() else made


def _feed(content: ClauseContent, days: DayContext) -> Value | None:
    """Give the food given; a frame of food counts as a frame of honey."""
    litres = take_amount(content, Measure.LITRES, most=MOST_SYRUP_LITRES)
    feeders = take_amount(content, Measure.FEEDERS, most=10)
    if feeders is not None:
        if litres is not None:
            raise Unclear(QuestionKind.BAD_NUMBER)
        litres = round(feeders * days.feeder_litres, 3)
    if litres is not None and any(amount.of is Substance.FOOD for amount in content.amounts):
        raise Unclear(QuestionKind.BAD_NUMBER)
    ratios = {a.ratio for a in content.amounts if a.measure is Measure.PARTS}
    content.amounts = [a for a in content.amounts if a.measure is not Measure.PARTS]
    if len(ratios) > 1 or litres == 0:
        raise Unclear(QuestionKind.BAD_NUMBER)
    feed = Feed(
        syrup_litres=litres,
        ratio=next(iter(ratios), None),
        honey_frames=take_amount(
            content, Measure.FRAMES, Substance.HONEY, Substance.FOOD, most=MOST_FRAMES
        ),
        fondant_kg=take_amount(content, Measure.KILOGRAMS, most=MOST_FONDANT_KG),
    )
    return None if feed == Feed() else feed


def _stores(content: ClauseContent, _: DayContext) -> Value | None:
    """Give the food seen."""
    frames = take_amount(content, Measure.FRAMES, Substance.FOOD, None, most=MOST_FRAMES)
    if frames is None:
        raise Unclear(QuestionKind.BAD_NUMBER)
    return Stores(frames)


def _trap(content: ClauseContent, _: DayContext) -> Value | None:
    """Give the beetles counted."""
    beetles = take_amount(content, Measure.BEETLES, most=MOST_BEETLES)
    if beetles is None:
        return None
    if not beetles.is_integer():
        raise Unclear(QuestionKind.BAD_NUMBER)
    return TrapCount(int(beetles))


def _put_off(content: ClauseContent, days: DayContext) -> Value | None:
    span = take_amount(content, Measure.DAYS, most=LONGEST_PUT_OFF_DAYS)
    spoken, content.until = content.until, None
    if (span is None) == (spoken is None):
        raise Unclear(QuestionKind.WHICH_DATE, ("skip till friday",))
    until = _until(span, spoken, days.today)
    if until is None or until > days.today + timedelta(days=LONGEST_PUT_OFF_DAYS):
        raise Unclear(QuestionKind.WHICH_DATE, ("skip till friday",))
    return PutOff(until)


def _until(span: float | None, spoken: SpokenDay | None, today: date) -> date | None:
    if span:
        return today + timedelta(days=span)
    return spoken.ahead(today) if spoken else None


def _taken(value: Value | None, content: ClauseContent) -> Value | None:
    fate = value.fate if isinstance(value, Taken) else None
    destination, content.destination = content.destination, None
    if destination is not None and fate is None:
        fate = Fate.USED
    return None if fate is None and destination is None else Taken(fate, destination)


def _boost(kind: EntryKind, content: ClauseContent) -> str:
    """Give what was added in words: these findings carry no number of their own."""
    brood = (Substance.BROOD, Substance.SEALED_BROOD)
    if kind is EntryKind.BROOD_ADDED:
        frames = take_amount(content, Measure.FRAMES, *brood, None, most=MOST_FRAMES)
        return "" if frames is None else f"{frames:g} frames of brood"
    frames = take_amount(content, Measure.FRAMES, Substance.BEES, None, most=MOST_FRAMES)
    shakes = take_amount(content, Measure.SHAKES, most=MOST_SHAKES)
    said = [f"{frames:g} frames of bees"] if frames is not None else []
    return ", ".join([*said, *([f"{shakes:g} shakes of bees"] if shakes is not None else [])])


_FILLS: dict[EntryKind, Fill] = {
    EntryKind.CELL_PLACED: _cell_age,
    EntryKind.VIRGIN_PLACED: _virgin_age,
    EntryKind.MADE_UP: _make_up,
    EntryKind.FED: _feed,
    EntryKind.STORES: _stores,
    EntryKind.TRAP_SERVICED: _trap,
    EntryKind.PUT_OFF: _put_off,
}
