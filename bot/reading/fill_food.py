"""The numbers of food given and seen, and of beetles."""

from bot.reading.lexicon.measures import Measure
from bot.reading.limits import (
    MOST_BEETLES,
    MOST_FONDANT_KG,
    MOST_FRAMES,
    MOST_SYRUP_LITRES,
)
from bot.reading.result import QuestionKind
from bot.reading.take import Days, take
from bot.reading.tokens.amounts import Substance
from bot.reading.told import Unclear, Words
from scheduling.values import Feed, Stores, TrapCount, Value


def feed(words: Words, days: Days) -> Value | None:
    """Give the food given; a frame of food counts as a frame of honey."""
    litres = take(words, Measure.LITRES, most=MOST_SYRUP_LITRES)
    feeders = take(words, Measure.FEEDERS, most=10)
    if feeders is not None:
        if litres is not None:
            raise Unclear(QuestionKind.BAD_NUMBER)
        litres = round(feeders * days.feeder_litres, 3)
    if litres is not None and any(amount.of is Substance.FOOD for amount in words.amounts):
        raise Unclear(QuestionKind.BAD_NUMBER)
    ratios = {a.ratio for a in words.amounts if a.measure is Measure.PARTS}
    words.amounts = [a for a in words.amounts if a.measure is not Measure.PARTS]
    if len(ratios) > 1 or litres == 0:
        raise Unclear(QuestionKind.BAD_NUMBER)
    feed = Feed(
        syrup_litres=litres,
        ratio=next(iter(ratios), None),
        honey_frames=take(words, Measure.FRAMES, Substance.HONEY, Substance.FOOD, most=MOST_FRAMES),
        fondant_kg=take(words, Measure.KILOGRAMS, most=MOST_FONDANT_KG),
    )
    return None if feed == Feed() else feed


def stores(words: Words, _: Days) -> Value | None:
    """Give the food seen."""
    frames = take(words, Measure.FRAMES, Substance.FOOD, None, most=MOST_FRAMES)
    if frames is None:
        raise Unclear(QuestionKind.BAD_NUMBER)
    return Stores(frames)


def trap(words: Words, _: Days) -> Value | None:
    """Give the beetles counted."""
    beetles = take(words, Measure.BEETLES, most=MOST_BEETLES)
    if beetles is None:
        return None
    if not beetles.is_integer():
        raise Unclear(QuestionKind.BAD_NUMBER)
    return TrapCount(int(beetles))
