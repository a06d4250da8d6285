"""Numbers with their measures: "1 quart", "half a frame of food", "10 day", "12 beetles"."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from bot.reading.lexicon.measures import DOZEN, FRACTIONS, MEASURES, NUMBERS, Measure
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


_OF = (Measure.FRAMES, Measure.SHAKES)


def number_at(words: Sequence[Word], at: int) -> tuple[float, int] | None:
    """Read a number at ``at``: 2, 1.5, 1/2, 1 1/2, two, half a, one and a half, a quarter."""
    whole = _plain(words, at)
    if whole is None:
        return _fraction(words, at)
    after = spoken_number(words, at)[1] if words[at].form is Form.WORD else at + 1
    if _text(words, after) == "and" and (more := _fraction(words, after + 1)):
        return whole + more[0], more[1]
    if (more := _slash(words, after)) and float(whole).is_integer():
        return whole + more[0], more[1]
    if _text(words, after) in FRACTIONS and _text(words, after) != "half":
        return round(whole * FRACTIONS[_text(words, after)], 3), _skip_of(words, after + 1)
    return whole, after


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""


_TENS = 20


def spoken_number(words: Sequence[Word], at: int) -> tuple[float | None, int]:
    """Read "twenty one" or "nine"; give it, or None, and the index after it."""
    number = NUMBERS.get(_text(words, at))
    ones = NUMBERS.get(_text(words, at + 1), 0)
    if number is not None and number >= _TENS and 0 < ones < 10:
        return number + ones, at + 2
    return number, at + 1


def _plain(words: Sequence[Word], at: int) -> float | None:
    if at >= len(words):
        return None
    if words[at].form is Form.NUMBER:
        return float(words[at].text)
    number = DOZEN.get(words[at].text, spoken_number(words, at)[0])
    return None if number is None else float(number)


def _slash(words: Sequence[Word], at: int) -> tuple[float, int] | None:
    if at >= len(words) or words[at].form is not Form.SLASH or words[at].text.count("/") != 1:
        return None
    above, below = map(int, words[at].text.split("/"))
    return (round(above / below, 3), at + 1) if 0 < above < below else None


def _fraction(words: Sequence[Word], at: int) -> tuple[float, int] | None:
    if (found := _slash(words, at)) is not None:
        return found
    start = at + (_text(words, at) in ("a", "an"))
    if _text(words, start) in FRACTIONS:
        return FRACTIONS[_text(words, start)], _skip_of(words, start + 1)
    return None


def _skip_of(words: Sequence[Word], at: int) -> int:
    """Pass over "of a" in "half of a frame"."""
    after = at + (_text(words, at) == "of")
    return after + (_text(words, after) in ("a", "an"))


def amount_at(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    """Read a number with its measure at ``at``; give it and the index after it."""
    for form in (_ratio, _egg_days, _hours_glued, _days_glued, _measured):
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


def _hours_glued(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    hours = _glued(words, at, "h")
    beside = {_text(words, at - 1), _text(words, at + 1)}
    if hours is None or not beside & {"larvae", "larva", "old"}:
        return None
    return Amount(Measure.HOURS, hours), at + 1


def _measured(words: Sequence[Word], at: int) -> tuple[Amount, int] | None:
    number, after = number_at(words, at) or (None, at)
    if number is None:
        if _text(words, at) not in ("a", "an") and not _bare_measure(words, at):
            return None
        number, after = 1.0, at + (_text(words, at) in ("a", "an"))
    while _text(words, after) in ("-", "of", "full", "deep", "small", "more"):
        after += 1
    measure, worth = MEASURES.get(_text(words, after), (None, 0.0))
    if measure is None:
        return None
    of, after = _substance(words, after + 1) if measure in _OF else (None, after + 1)
    of = of if measure is Measure.FRAMES else None
    return Amount(measure, round(number * worth, 3), of), after


def _bare_measure(words: Sequence[Word], at: int) -> bool:
    """Say whether a measure stands for one of it: "jar on 4b", "frame of honey"."""
    if _text(words, at) in ("jar", "shake", "quart"):
        return True
    return _text(words, at) == "frame" and _substance(words, at + 1)[0] is not None


def _substance(words: Sequence[Word], at: int) -> tuple[Substance | None, int]:
    start = at + (_text(words, at) == "of")
    for phrase, substance in _SUBSTANCES.items():
        said = tuple(_text(words, start + step) for step in range(len(phrase)))
        if said == phrase:
            return substance, start + len(phrase)
    return None, at
