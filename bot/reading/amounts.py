"""Numbers with their measures: "1 quart", "half a frame of food", "10 day", "12 beetles"."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from bot.reading.articles import text_at as _text
from bot.reading.lexicon.measures import DOZEN, FRACTIONS, MEASURES, NUMBERS, Measure
from bot.reading.numbers import number_at
from bot.reading.words import Form, Word


class Substance(StrEnum):
    """What a frame is full of."""

    FOOD = "food"
    HONEY = "honey"
    BROOD = "brood"
    SEALED_BROOD = "sealed_brood"
    BEES = "bees"


@dataclass(frozen=True)
class Amount:
    """A number of one measure, with the substance of frames and the ratio of syrup if said."""

    measure: Measure
    number: float
    of: Substance | None = None
    ratio: str | None = None


_SUBSTANCES: dict[tuple[str, ...], Substance] = {
    ("food",): Substance.FOOD,
    ("stores",): Substance.FOOD,
    ("honey",): Substance.HONEY,
    ("sealed", "brood"): Substance.SEALED_BROOD,
    ("capped", "brood"): Substance.SEALED_BROOD,
    ("brood",): Substance.BROOD,
    ("nurse", "bees"): Substance.BEES,
    ("bees",): Substance.BEES,
}


_BEFORE_MEASURE = frozenset({"-", "of", "full", "deep", "small", "more", "good", "big", "extra"})
_OF = (Measure.FRAMES, Measure.SHAKES)


_BEGINNINGS = frozenset({"a", "an", "another", *NUMBERS, *FRACTIONS, *DOZEN, *MEASURES})
"""The words with which an amount may begin: most words of a text are tried in vain."""


def amount_at(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    """Read a number with its measure at ``at``; give it and the index after it."""
    if words[at].form is Form.WORD and words[at].text not in _BEGINNINGS:
        return None
    for form in _FORMS:
        found = form(words, at)
        if found is not None:
            return found
    return None


def _ratio(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    if words[at].form is Form.RATIO:
        return Amount(Measure.PARTS, 0.0, ratio=words[at].text), at + 1
    said = [_text(words, at), _text(words, at + 1), _text(words, at + 2)]
    if said[1] == "to" and said[2] in ("one", "1") and said[0] in ("one", "two", "1", "2"):
        parts = f"{NUMBERS.get(said[0], said[0]):g}" if said[0] in NUMBERS else said[0]
        return Amount(Measure.PARTS, 0.0, ratio=f"{parts}:1"), at + 3
    return None


def _near_cell(words: Sequence[Word], at: int) -> bool:
    around = (_text(words, at - 1), _text(words, at + 1), _text(words, at + 2))
    return bool({"cell", "cells"}.intersection(around))


def _glued(words: Sequence[Word], at: int, letter: str) -> float | None:
    """Give the number of "14e", "10d" or "18h"."""
    text = words[at].text
    glued = words[at].form is Form.GLUED and text.endswith(letter) and text[:-1].isdigit()
    return float(text[:-1]) if glued else None


def _egg_days(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    days = _glued(words, at, "e")
    if days is None or not _near_cell(words, at):
        return None
    return Amount(Measure.EGG_DAYS, days), at + 1


def _days_glued(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    days = _glued(words, at, "d")
    if days is None or not (_near_cell(words, at) or _text(words, at + 1) == "old"):
        return None
    return Amount(Measure.DAYS, days), at + 1


_FEW_GRAMS = 50.0
"""Under this "4g" is a unit and not a weight."""


def _grams(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    grams = _glued(words, at, "g")
    beside = {_text(words, at + 1), _text(words, at + 2), _text(words, at - 1)}
    if grams is None or grams < _FEW_GRAMS or not beside & {"fondant", "candy", "of", "sugar"}:
        return None
    return Amount(Measure.KILOGRAMS, round(grams / 1000, 3)), at + 1


def _beetles(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    """Read a count that follows its measure: "beetles 30"."""
    if MEASURES.get(_text(words, at), (None,))[0] is not Measure.BEETLES:
        return None
    start = at + 1 + (_text(words, at + 1) in (":", "="))
    if start >= len(words) or words[start].form is not Form.NUMBER:
        return None
    return Amount(Measure.BEETLES, float(words[start].text)), start + 1


def _hours_glued(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    hours = _glued(words, at, "h")
    beside = {_text(words, at - 1), _text(words, at + 1)}
    if hours is None or not beside & {"larvae", "larva", "old"}:
        return None
    return Amount(Measure.HOURS, hours), at + 1


def _measured(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    number, after = number_at(words, at) or (None, at)
    if number is None:
        one = _text(words, at) in ("a", "an", "another")
        if not one and not _bare_measure(words, at):
            return None
        number, after = 1.0, at + one
    while _text(words, after) in _BEFORE_MEASURE:
        after += 1
    return _of_substance(words, after, number) or _of_measure(words, after, number)


def _of_substance(words: Sequence[Word], at: int, number: float) -> tuple[Amount, int] | None:
    """Read the frames of "2 honey frames"."""
    of, after = _substance(words, at)
    if of is None or MEASURES.get(_text(words, after), (None,))[0] is not Measure.FRAMES:
        return None
    return Amount(Measure.FRAMES, number, of), after + 1


def _of_measure(words: Sequence[Word], at: int, number: float) -> tuple[Amount, int] | None:
    measure, worth = MEASURES.get(_text(words, at), (None, 0.0))
    if measure is None or _text(words, at + 1) in ("trap", "traps"):
        return None
    number, at = _and_a_half(words, at, number)
    of, after = _substance(words, at + 1) if measure in _OF else (None, at + 1)
    of = of if measure is Measure.FRAMES else None
    if of in (Substance.FOOD, Substance.HONEY) and _text(words, after) == "left":
        of, after = Substance.FOOD, after + 1
    if measure in (Measure.LITRES, Measure.FEEDERS):
        after = _past_syrup(words, after)
    return Amount(measure, round(number * worth, 3), of), after


def _and_a_half(words: Sequence[Word], at: int, number: float) -> tuple[float, int]:
    """Read what follows the measure of "a quart and a half"; give the index of its last word."""
    if _text(words, at + 1) == "and" and _text(words, at + 2) in ("a", "half"):
        more = number_at(words, at + 2)
        if more is not None and more[0] < 1:
            return number + more[0], more[1] - 1
    return number, at


def _past_syrup(words: Sequence[Word], at: int) -> int:
    """Pass over "of sugar syrup": a volume can be of nothing else."""
    after = at + (_text(words, at) == "of")
    after += _text(words, after) in ("sugar", "thin", "thick", "light", "heavy")
    return after + 1 if _text(words, after) in ("syrup", "water", "feed", "sirup") else at


def bare_frames_at(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    """Read "1 brood" and "2 food" of a make-up, which leaves its frames unsaid."""
    number, after = number_at(words, at) or (None, at)
    of, end = _substance(words, after)
    return None if number is None or of is None else (Amount(Measure.FRAMES, number, of), end)


def _bare_measure(words: Sequence[Word], at: int) -> bool:
    """Say whether a measure stands for one of it: "jar on 4b", "frame of honey"."""
    if _text(words, at) in ("jar", "shake", "quart", "qt", "pint", "gallon", "litre", "liter"):
        return True
    return _text(words, at) == "frame" and _substance(words, at + 1)[0] is not None


def _substance(words: Sequence[Word], at: int) -> tuple[Substance | None, int]:
    start = at + (_text(words, at) == "of")
    for phrase, substance in _SUBSTANCES.items():
        said = tuple(_text(words, start + step) for step in range(len(phrase)))
        if said == phrase:
            return substance, start + len(phrase)
    return None, at


_FORMS = (_ratio, _egg_days, _hours_glued, _days_glued, _grams, _beetles, _measured)
