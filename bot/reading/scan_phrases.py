"""Phrases of the lexicon, and where a queen or a unit went."""

from bot.reading.atoms import Atom, Break, Everything, Puzzle, Said, Strength, Whither
from bot.reading.dates import spoken_at
from bot.reading.lexicon.sense import Hint, Role, Sense
from bot.reading.lexicon.table import phrase_at
from bot.reading.result import QuestionKind
from bot.reading.sight import HARD, SOFT, Found, Sight
from scheduling.entries import EntryKind


def long_phrase(sight: Sight, at: int) -> Found | None:
    """Read a phrase of several words."""
    found = phrase_at([word.text for word in sight.words[at : at + 8]])
    if found is None or found[1] == 1:
        return None
    if sight.text_at(at + found[1] - 1) == "in" and sight.units_at(at + found[1]):
        shorter = phrase_at([word.text for word in sight.words[at : at + found[1] - 1]])
        if shorter and shorter[1] == found[1] - 1:
            return _said(sight, at, *shorter)
    return _said(sight, at, *found)


def phrase(sight: Sight, at: int) -> Found | None:
    """Read a word of the lexicon; "in" at an end is a verb of giving."""
    if sight.text_at(at) == "in" and sight.text_at(at + 1) in {"", *SOFT, *HARD, "and", "today"}:
        return Said(*sight.span(at, at + 1), Sense(hint=Hint.GIVEN)), at + 1
    found = phrase_at([sight.text_at(at)])
    return _said(sight, at, *found) if found else None


def _said(sight: Sight, at: int, sense: Sense, length: int) -> Found:
    span = sight.span(at, at + length)
    after = at + length
    if sense.role is Role.QUIET:
        return None, after
    if sense.role is Role.EVERYTHING:
        return Everything(*span), after
    if sense.role is Role.SEPARATOR:
        return Break(*span, Strength.AND), after
    if sense.options:
        return Puzzle(*span, QuestionKind.WHICH_MEANING, sense.options), after
    return Said(*span, sense), after


def whither(sight: Sight, at: int) -> Found | None:
    """Read where a queen or a unit went: "to 11", "into 4b", "to pat"."""
    if not sight.moves or sight.text_at(at) not in ("to", "into") or not _moved(sight):
        return None
    if sight.text_at(at + 1) in ("bank", "the") and "bank" in (
        sight.text_at(at + 1),
        sight.text_at(at + 2),
    ):
        return None
    end = _whither_end(sight, at + 1)
    if end == at + 1:
        return None
    start, stop = sight.span(at, end)
    return Whither(start, stop, sight.text[sight.words[at + 1].start : stop]), end


def _moved(sight: Sight) -> bool:
    recent: list[Atom] = []
    for atom in sight.atoms:
        recent = [] if isinstance(atom, Break) else [*recent, atom]
    kinds = {EntryKind.QUEEN_TAKEN, EntryKind.COMBINED}
    senses = [atom.sense for atom in recent if isinstance(atom, Said)]
    return any(sense.kind in kinds or sense.hint is Hint.TAKE for sense in senses)


def _whither_end(sight: Sight, at: int) -> int:
    i = at
    while i < len(sight.words) and sight.text_at(i) not in {*SOFT, *HARD, "and", "from"}:
        if spoken_at(sight.words, i) or (i > at and sight.glued(i)):
            break
        i += 1
    return i
