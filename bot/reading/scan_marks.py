"""Notes, commas and sentence ends, and grafts told in one phrase."""

from bot.reading.atoms import Break, FreeWords, Puzzle, Strength, Units
from bot.reading.grafts import grafted_at
from bot.reading.result import QuestionKind
from bot.reading.scan_names import units
from bot.reading.sight import HARD, SOFT, Found, Sight

_DROPPED = frozenset({":", "-", "=", "(", ")", '"', "'", "*", "/", "@", ">"})


def note(sight: Sight, at: int) -> Found | None:
    """Read a free note, with the unit that may stand first in it."""
    if sight.text_at(at) not in ("note", "notes"):
        return None
    end = _note_end(sight, at + 1)
    if end == at + 1:
        return Puzzle(*sight.span(at, at + 1), QuestionKind.NOT_UNDERSTOOD), end
    about = sight.text_at(at + 1) in ("for", "on", "about") and sight.lettered(at + 2)
    at += about
    if (about or sight.glued(at + 1)) and end > at + 2 and (named := units(sight, at + 1)):
        sight.atoms.append(named[0] or Break(0, 0, Strength.COMMA))
        at = named[1] - 1
    start, stop = sight.span(at, end)
    words = sight.text[sight.words[at].end : stop].strip(" :-,")
    return FreeWords(start, stop, words), end


def _note_end(sight: Sight, at: int) -> int:
    """Find where a note ends: at a line's end, a semicolon, or a comma before a unit."""
    for i in range(at, len(sight.words)):
        comma_before_unit = sight.text_at(i) in (",", ".") and sight.glued(i + 1)
        if sight.text_at(i) in ("\n", ";") or comma_before_unit:
            return i
    return len(sight.words)


def mark(sight: Sight, at: int) -> Found | None:
    """Read a comma or the end of a sentence; other marks are dropped."""
    text = sight.text_at(at)
    if text == ":" and sight.glued(at + 1) and sight.atoms and isinstance(sight.atoms[-1], Units):
        return Break(*sight.span(at, at + 1), Strength.STOP), at + 1
    if text in SOFT or text in HARD:
        return Break(*sight.span(at, at + 1), _strength(text)), at + 1
    return (None, at + 1) if text in _DROPPED else None


def grafted(sight: Sight, at: int) -> Found | None:
    """Read "grafted 40 from 12b" or "grafted 2 May"."""
    return grafted_at(sight.words, at, sight.text)


def _strength(mark: str) -> Strength:
    if mark in HARD:
        return Strength.STOP
    return Strength.COMMA if mark == "," else Strength.AND
