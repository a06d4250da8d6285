"""Each finding takes the numbers that belong to it; a number left over is asked about."""

from collections.abc import Callable
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
from bot.reading.meaning.partial_finding import (
    ClauseContent,
    DayContext,
    PartialFinding,
    Unclear,
    take_amount,
)
from bot.reading.result import QuestionKind
from bot.reading.tokens.amounts import Amount, Substance
from bot.reading.tokens.dates import SpokenDay
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


def implied_kind(amount: Amount) -> EntryKind:
    """Give the finding that a number tells by itself: "1 quart", "12 beetles".

    Raises:
        Unclear: it could belong to several, or to none; or the ratio of syrup is all that is said.
    """
    if amount.measure in (Measure.LITRES, Measure.FEEDERS):
        return EntryKind.FED
    if amount.measure is Measure.PARTS:
        # A time of day and many other things are written like a ratio.
        raise Unclear(QuestionKind.BAD_NUMBER)
    if amount.measure is Measure.BEETLES:
        return EntryKind.TRAP_SERVICED
    if amount.measure is Measure.FRAMES and amount.of is Substance.FOOD:
        return EntryKind.STORES
    if amount.measure is Measure.SHAKES:
        return EntryKind.BEES_ADDED
    raise Unclear(QuestionKind.WHICH_MEANING, _MAYBE.get(amount.of, ()))


_MAYBE: dict[Substance | None, tuple[str, ...]] = {
    Substance.HONEY: ("1/2 frame food", "fed 1 frame honey"),
    Substance.BROOD: ("gave 1 frame brood", "sealed brood"),
    Substance.SEALED_BROOD: ("gave 1 frame brood", "sealed brood"),
    Substance.BEES: ("gave 1 frame bees",),
}
