"""A batch in one phrase: grafted 40 from 12b larvae 18 hours."""

from collections.abc import Sequence

from bot.reading.amounts import amount_at
from bot.reading.atoms import Batch, GraftedOn
from bot.reading.dates import spoken_at
from bot.reading.lexicon.measures import Measure
from bot.reading.limits import MOST_GRAFTED, OLDEST_LARVA_HOURS
from bot.reading.numbers import number_at
from bot.reading.spoken import Spoken
from bot.reading.words import Form, Word
from scheduling.values import Graft

_NOISE = frozenset({"cells", "cell", "larvae", "larva", "cups", "on", "old", "about", "of", "with"})
_PLACED = frozenset({"in", "into", "to"})


def grafted_at(words: Sequence[Word], at: int, text: str) -> tuple[GraftedOn | Batch, int] | None:
    """Read the phrase at ``at``: the graft day of cells named beside it, or a batch."""
    if words[at].text not in ("grafted", "graft"):
        return None
    if _cells_placed(words, at):
        return _grafted_on(words, at)
    return _batch(words, at, text)


def _cells_placed(words: Sequence[Word], at: int) -> bool:
    """Say whether the sentence also puts cells into units."""
    texts = [word.text for word in words]
    before = {"cell", "cells", "celled"} & set(texts[_line_start(texts, at) : at])
    after = any(
        texts[i] in ("cell", "cells") and (set(texts[i + 1 : i + 2]) & _PLACED or _named(words, i))
        for i in range(at + 1, len(words))
    )
    return bool(before) or after


def _named(words: Sequence[Word], at: int) -> bool:
    return at + 1 < len(words) and words[at + 1].form is Form.GLUED


def _line_start(texts: Sequence[str], at: int) -> int:
    stops = [i for i in range(at) if texts[i] in ("\n", ";", ".")]
    return stops[-1] + 1 if stops else 0


def _grafted_on(words: Sequence[Word], at: int) -> tuple[GraftedOn, int] | None:
    start = at + 1
    while start < len(words) and words[start].text in ("on", "of", "from", "the"):
        start += 1
    found = spoken_at(words, start) if start < len(words) else None
    if found is None:
        return None
    return GraftedOn(words[at].start, words[found[1] - 1].end, found[0]), found[1]


class _Telling:
    """What has been read of a batch so far."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.count: float | None = None
        self.mother: str | None = None
        self.hours: float | None = None
        self.day: Spoken | None = None


def _batch(words: Sequence[Word], at: int, text: str) -> tuple[Batch, int]:
    told, i = _Telling(text), at + 1
    while i < len(words) and (after := _take(words, i, told)):
        i = after
    graft = Graft(None if told.count is None else int(told.count), told.mother, told.hours)
    return Batch(words[at].start, words[i - 1].end, graft, told.day, _possible(told)), i


def _possible(told: _Telling) -> bool:
    count, hours = told.count, told.hours
    sound_count = count is None or (count.is_integer() and 0 < count <= MOST_GRAFTED)
    return sound_count and (hours is None or 0 <= hours <= OLDEST_LARVA_HOURS)


def _take(words: Sequence[Word], i: int, told: _Telling) -> int:
    """Read one more piece of the phrase; 0 when it has ended."""
    if (day := spoken_at(words, i)) and told.day is None:
        told.day = day[0]
        return day[1]
    if (age := amount_at(words, i)) and age[0].measure in (Measure.HOURS, Measure.DAYS):
        told.hours = age[0].number * (24 if age[0].measure is Measure.DAYS else 1)
        return age[1]
    if words[i].text == "from" and told.mother is None:
        return _mother(words, i + 1, told)
    if (count := number_at(words, i)) and told.count is None:
        told.count = count[0]
        return count[1]
    return i + 1 if words[i].text in _NOISE or _goes_on(words, i) else 0


def _goes_on(words: Sequence[Word], i: int) -> bool:
    """Say whether a comma stands before a further piece of the same phrase."""
    if words[i].text != "," or i + 1 >= len(words):
        return False
    following = words[i + 1]
    return following.text in {*_NOISE, "from"} or bool(
        spoken_at(words, i + 1) or (following.form is Form.NUMBER and amount_at(words, i + 1))
    )


def _mother(words: Sequence[Word], start: int, told: _Telling) -> int:
    i = start
    while i < len(words) and not _ends_name(words, i, start):
        i += 1
    told.mother = told.text[words[start].start : words[i - 1].end] if i > start else None
    return i if i > start else 0


def _ends_name(words: Sequence[Word], i: int, start: int) -> bool:
    if words[i].text in {*_NOISE, "at", "and", ".", ";", ",", "\n"} or spoken_at(words, i):
        return True
    return i > start and bool(amount_at(words, i))
