"""The numbers of a start: a cell's or virgin's age, what a unit was stocked with."""

from bot.reading.lexicon.measures import Measure
from bot.reading.limits import (
    MOST_FRAMES,
    MOST_SHAKES,
    OLDEST_CELL_DAYS,
    OLDEST_CELL_EGG_DAYS,
    OLDEST_VIRGIN_DAYS,
)
from bot.reading.result import QuestionKind
from bot.reading.take import Days, take
from bot.reading.tokens.amounts import Substance
from bot.reading.told import Unclear, Words
from scheduling.values import CellAge, MakeUp, Value, VirginAge


def cell_age(words: Words, days: Days) -> Value | None:
    """Give the age of cells placed, from their days or the day they were grafted."""
    from_graft = take(words, Measure.DAYS, most=OLDEST_CELL_DAYS)
    from_egg = take(words, Measure.EGG_DAYS, most=OLDEST_CELL_EGG_DAYS)
    if words.grafted_on is not None:
        grafted = words.grafted_on.behind(days.today)
        words.grafted_on = None
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


def virgin_age(words: Words, _: Days) -> Value | None:
    """Give the age of a virgin placed."""
    age = take(words, Measure.DAYS, most=OLDEST_VIRGIN_DAYS)
    return None if age is None else VirginAge(age)


def make_up(words: Words, _: Days) -> Value | None:
    """Give what a unit was stocked with."""
    sealed = take(words, Measure.FRAMES, Substance.SEALED_BROOD, most=MOST_FRAMES)
    brood = take(words, Measure.FRAMES, Substance.BROOD, most=MOST_FRAMES)
    share = take(words, Measure.PERCENT, most=100)
    if sealed is not None and brood is None and share is None:
        brood, share = sealed, 100.0
    elif sealed is not None:
        raise Unclear(QuestionKind.BAD_NUMBER)
    made = MakeUp(
        brood_frames=brood,
        sealed_share=None if share is None else round(share / 100, 3),
        bee_frames=take(words, Measure.FRAMES, Substance.BEES, most=MOST_FRAMES),
        nurse_shakes=take(words, Measure.SHAKES, most=MOST_SHAKES),
        food_frames=take(words, Measure.FRAMES, Substance.FOOD, Substance.HONEY, most=MOST_FRAMES),
    )
    return None if made == MakeUp() else made
