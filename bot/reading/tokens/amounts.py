"""Numbers ("1/2", "one and a half"), and amounts: "1 quart", "half a frame of food"."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from bot.reading.lexicon.measures import DOZEN, FRACTIONS, MEASURES, NUMBERS, Measure
from bot.reading.tokens.token import Token, TokenForm, text_at

_TENS = 20


def number_at(tokens: Sequence[Token], at: int) -> tuple[float, int] | None:
    """Read a number at ``at``: 2, 1.5, 1/2, 1 1/2, two, half a, one and a half, a quarter."""
    whole = _plain(tokens, at)
    if whole is None:
        return _fraction(tokens, at)
    after = spoken_number(tokens, at)[1] if tokens[at].form is TokenForm.WORD else at + 1
    if text_at(tokens, after) == "and" and (more := _fraction(tokens, after + 1)):
        return whole + more[0], more[1]
    if (more := _slash(tokens, after)) and float(whole).is_integer():
        return whole + more[0], more[1]
    if text_at(tokens, after) in FRACTIONS and text_at(tokens, after) != "half":
        return round(whole * FRACTIONS[text_at(tokens, after)], 3), _skip_of(tokens, after + 1)
    return whole, after


def spoken_number(tokens: Sequence[Token], at: int) -> tuple[float | None, int]:
    """Read "twenty one" or "nine"; give it, or None, and the index after it."""
    number = NUMBERS.get(text_at(tokens, at))
    ones = NUMBERS.get(text_at(tokens, at + 1), 0)
    if number is not None and number >= _TENS and 0 < ones < 10:
        return number + ones, at + 2
    return number, at + 1


def _plain(tokens: Sequence[Token], at: int) -> float | None:
    if at >= len(tokens):
        return None
    if tokens[at].form is TokenForm.NUMBER:
        return float(tokens[at].text)
    number = DOZEN.get(tokens[at].text, spoken_number(tokens, at)[0])
    return None if number is None else float(number)


def _slash(tokens: Sequence[Token], at: int) -> tuple[float, int] | None:
    if (
        at >= len(tokens)
        or tokens[at].form is not TokenForm.SLASH
        or tokens[at].text.count("/") != 1
    ):
        return None
    above, below = map(int, tokens[at].text.split("/"))
    return (round(above / below, 3), at + 1) if 0 < above < below else None


def _fraction(tokens: Sequence[Token], at: int) -> tuple[float, int] | None:
    if (found := _slash(tokens, at)) is not None:
        return found
    start = at + (text_at(tokens, at) in ("a", "an"))
    if text_at(tokens, start) in FRACTIONS:
        return FRACTIONS[text_at(tokens, start)], _skip_of(tokens, start + 1)
    return None


def _skip_of(tokens: Sequence[Token], at: int) -> int:
    """Pass over "of a" in "half of a frame"."""
    after = at + (text_at(tokens, at) == "of")
    return after + (text_at(tokens, after) in ("a", "an"))


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


def amount_at(tokens: Sequence[Token], at: int) -> tuple[Amount, int] | None:
    """Read a number with its measure at ``at``; give it and the index after it."""
    if tokens[at].form is TokenForm.WORD and tokens[at].text not in _BEGINNINGS:
        return None
    for form in _FORMS:
        found = form(tokens, at)
        if found is not None:
            return found
    return None


def _ratio(tokens: Sequence[Token], at: int) -> tuple[Amount, int] | None:
    if tokens[at].form is TokenForm.RATIO:
        return Amount(Measure.PARTS, 0.0, ratio=tokens[at].text), at + 1
    said = [text_at(tokens, at), text_at(tokens, at + 1), text_at(tokens, at + 2)]
    if said[1] == "to" and said[2] in ("one", "1") and said[0] in ("one", "two", "1", "2"):
        parts = f"{NUMBERS.get(said[0], said[0]):g}" if said[0] in NUMBERS else said[0]
        return Amount(Measure.PARTS, 0.0, ratio=f"{parts}:1"), at + 3
    return None


def _near_cell(tokens: Sequence[Token], at: int) -> bool:
    around = (text_at(tokens, at - 1), text_at(tokens, at + 1), text_at(tokens, at + 2))
    return bool({"cell", "cells"}.intersection(around))


def _glued(tokens: Sequence[Token], at: int, letter: str) -> float | None:
    """Give the number of "14e", "10d" or "18h"."""
    text = tokens[at].text
    glued = tokens[at].form is TokenForm.GLUED and text.endswith(letter) and text[:-1].isdecimal()
    return float(text[:-1]) if glued else None


def _egg_days(tokens: Sequence[Token], at: int) -> tuple[Amount, int] | None:
    days = _glued(tokens, at, "e")
    if days is None or not _near_cell(tokens, at):
        return None
    return Amount(Measure.EGG_DAYS, days), at + 1


def _days_glued(tokens: Sequence[Token], at: int) -> tuple[Amount, int] | None:
    days = _glued(tokens, at, "d")
    if days is None or not (_near_cell(tokens, at) or text_at(tokens, at + 1) == "old"):
        return None
    return Amount(Measure.DAYS, days), at + 1


_FEW_GRAMS = 50.0
"""Under this "4g" is a unit and not a weight."""


def _grams(tokens: Sequence[Token], at: int) -> tuple[Amount, int] | None:
    grams = _glued(tokens, at, "g")
    beside = {text_at(tokens, at + 1), text_at(tokens, at + 2), text_at(tokens, at - 1)}
    if grams is None or grams < _FEW_GRAMS or not beside & {"fondant", "candy", "of", "sugar"}:
        return None
    return Amount(Measure.KILOGRAMS, round(grams / 1000, 3)), at + 1


def _beetles(tokens: Sequence[Token], at: int) -> tuple[Amount, int] | None:
    """Read a count that follows its measure: "beetles 30"."""
    if MEASURES.get(text_at(tokens, at), (None,))[0] is not Measure.BEETLES:
        return None
    start = at + 1 + (text_at(tokens, at + 1) in (":", "="))
    if start >= len(tokens) or tokens[start].form is not TokenForm.NUMBER:
        return None
    return Amount(Measure.BEETLES, float(tokens[start].text)), start + 1


def _hours_glued(tokens: Sequence[Token], at: int) -> tuple[Amount, int] | None:
    hours = _glued(tokens, at, "h")
    beside = {text_at(tokens, at - 1), text_at(tokens, at + 1)}
    if hours is None or not beside & {"larvae", "larva", "old"}:
        return None
    return Amount(Measure.HOURS, hours), at + 1


def _measured(tokens: Sequence[Token], at: int) -> tuple[Amount, int] | None:
    number, after = number_at(tokens, at) or (None, at)
    if number is None:
        one = text_at(tokens, at) in ("a", "an", "another")
        if not one and not _bare_measure(tokens, at):
            return None
        number, after = 1.0, at + one
    while text_at(tokens, after) in _BEFORE_MEASURE:
        after += 1
    return _of_substance(tokens, after, number) or _of_measure(tokens, after, number)


def _of_substance(tokens: Sequence[Token], at: int, number: float) -> tuple[Amount, int] | None:
    """Read the frames of "2 honey frames"."""
    of, after = _substance(tokens, at)
    if of is None or MEASURES.get(text_at(tokens, after), (None,))[0] is not Measure.FRAMES:
        return None
    return Amount(Measure.FRAMES, number, of), after + 1


def _of_measure(tokens: Sequence[Token], at: int, number: float) -> tuple[Amount, int] | None:
    measure, worth = MEASURES.get(text_at(tokens, at), (None, 0.0))
    if measure is None or text_at(tokens, at + 1) in ("trap", "traps"):
        return None
    number, at = _and_a_half(tokens, at, number)
    of, after = _substance(tokens, at + 1) if measure in _OF else (None, at + 1)
    of = of if measure is Measure.FRAMES else None
    if of in (Substance.FOOD, Substance.HONEY) and text_at(tokens, after) == "left":
        of, after = Substance.FOOD, after + 1
    if measure in (Measure.LITRES, Measure.FEEDERS):
        after = _past_syrup(tokens, after)
    return Amount(measure, round(number * worth, 3), of), after


def _and_a_half(tokens: Sequence[Token], at: int, number: float) -> tuple[float, int]:
    """Read what follows the measure of "a quart and a half"; give the index of its last word."""
    if text_at(tokens, at + 1) == "and" and text_at(tokens, at + 2) in ("a", "half"):
        more = number_at(tokens, at + 2)
        if more is not None and more[0] < 1:
            return number + more[0], more[1] - 1
    return number, at


def _past_syrup(tokens: Sequence[Token], at: int) -> int:
    """Pass over "of sugar syrup": a volume can be of nothing else."""
    after = at + (text_at(tokens, at) == "of")
    after += text_at(tokens, after) in ("sugar", "thin", "thick", "light", "heavy")
    return after + 1 if text_at(tokens, after) in ("syrup", "water", "feed", "sirup") else at


def bare_frames_at(tokens: Sequence[Token], at: int) -> tuple[Amount, int] | None:
    """Read "1 brood" and "2 food" of a make-up, which leaves its frames unsaid."""
    number, after = number_at(tokens, at) or (None, at)
    of, end = _substance(tokens, after)
    return None if number is None or of is None else (Amount(Measure.FRAMES, number, of), end)


def _bare_measure(tokens: Sequence[Token], at: int) -> bool:
    """Say whether a measure stands for one of it: "jar on 4b", "frame of honey"."""
    if text_at(tokens, at) in ("jar", "shake", "quart", "qt", "pint", "gallon", "litre", "liter"):
        return True
    return text_at(tokens, at) == "frame" and _substance(tokens, at + 1)[0] is not None


def _substance(tokens: Sequence[Token], at: int) -> tuple[Substance | None, int]:
    start = at + (text_at(tokens, at) == "of")
    for phrase, substance in _SUBSTANCES.items():
        said = tuple(text_at(tokens, start + step) for step in range(len(phrase)))
        if said == phrase:
            return substance, start + len(phrase)
    return None, at


_FORMS = (_ratio, _egg_days, _hours_glued, _days_glued, _grams, _beetles, _measured)
