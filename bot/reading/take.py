"""Taking one number out of what was said, so that none is used twice or forgotten."""

from datetime import date

from bot.reading.lexicon.measures import Measure
from bot.reading.result import QuestionKind
from bot.reading.tokens.amounts import Substance
from bot.reading.told import Unclear, Words


class Days:
    """Today, the day spoken of, and what one feeder holds."""

    def __init__(self, today: date, on: date, feeder_litres: float) -> None:
        self.today = today
        self.on = on
        self.feeder_litres = feeder_litres


def take(words: Words, measure: Measure, *of: Substance | None, most: float) -> float | None:
    """Take one amount out; None if there is none.

    Raises:
        Unclear: two different amounts, or more than can be.

    """
    found = [a for a in words.amounts if a.measure is measure and (not of or a.of in of)]
    if not found:
        return None
    if len({amount.number for amount in found}) > 1 or not 0 <= found[0].number <= most:
        raise Unclear(QuestionKind.BAD_NUMBER)
    words.amounts = [amount for amount in words.amounts if amount not in found]
    return found[0].number
