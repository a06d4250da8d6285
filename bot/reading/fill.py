"""Each finding takes the numbers that belong to it; a number left over is asked about."""

from collections.abc import Callable
from datetime import date, timedelta

from bot.reading.fill_food import feed, stores, trap
from bot.reading.fill_starts import cell_age, make_up, virgin_age
from bot.reading.lexicon.measures import Measure
from bot.reading.limits import (
    LONGEST_PUT_OFF_DAYS,
    MOST_FRAMES,
    MOST_SHAKES,
)
from bot.reading.result import QuestionKind
from bot.reading.take import Days, take
from bot.reading.tokens.amounts import Amount, Substance
from bot.reading.tokens.spoken_day import SpokenDay
from bot.reading.told import Told, Unclear, Words
from scheduling.entry_kinds import EntryKind
from scheduling.values import (
    Fate,
    PutOff,
    Taken,
    Value,
)

Fill = Callable[[Words, Days], Value | None]


def filled(kind: EntryKind, value: Value | None, words: Words, days: Days) -> Told:
    """Give the finding with its numbers, which are taken out of ``words``.

    Raises:
        Unclear: a number cannot be, or a needed day is missing.

    """
    if kind in (EntryKind.BROOD_ADDED, EntryKind.BEES_ADDED):
        return Told(kind, None, _boost(kind, words))
    if kind is EntryKind.QUEEN_TAKEN:
        return Told(kind, _taken(value, words))
    fill = _FILLS.get(kind)
    return Told(kind, value if fill is None or value is not None else fill(words, days))


def _put_off(words: Words, days: Days) -> Value | None:
    span = take(words, Measure.DAYS, most=LONGEST_PUT_OFF_DAYS)
    spoken, words.till = words.till, None
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


def _taken(value: Value | None, words: Words) -> Value | None:
    fate = value.fate if isinstance(value, Taken) else None
    whither, words.whither = words.whither, None
    if whither is not None and fate is None:
        fate = Fate.USED
    return None if fate is None and whither is None else Taken(fate, whither)


def _boost(kind: EntryKind, words: Words) -> str:
    """Give what was added in words: these findings carry no number of their own."""
    brood = (Substance.BROOD, Substance.SEALED_BROOD)
    if kind is EntryKind.BROOD_ADDED:
        frames = take(words, Measure.FRAMES, *brood, None, most=MOST_FRAMES)
        return "" if frames is None else f"{frames:g} frames of brood"
    frames = take(words, Measure.FRAMES, Substance.BEES, None, most=MOST_FRAMES)
    shakes = take(words, Measure.SHAKES, most=MOST_SHAKES)
    said = [f"{frames:g} frames of bees"] if frames is not None else []
    return ", ".join([*said, *([f"{shakes:g} shakes of bees"] if shakes is not None else [])])


_FILLS: dict[EntryKind, Fill] = {
    EntryKind.CELL_PLACED: cell_age,
    EntryKind.VIRGIN_PLACED: virgin_age,
    EntryKind.MADE_UP: make_up,
    EntryKind.FED: feed,
    EntryKind.STORES: stores,
    EntryKind.TRAP_SERVICED: trap,
    EntryKind.PUT_OFF: _put_off,
}


def implied(amount: Amount) -> EntryKind:
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
