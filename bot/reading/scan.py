"""Words become atoms: each place of the text is tried against what may stand there."""

from collections.abc import Callable, Iterator

from bot.reading.atoms import Atom, Puzzle
from bot.reading.result import QuestionKind
from bot.reading.scan_days import amount, dashed, impossible, till, when
from bot.reading.scan_marks import grafted, mark, note
from bot.reading.scan_names import (
    article,
    asking,
    homophone,
    letter,
    part_of,
    position,
    see,
    units,
    yard,
)
from bot.reading.scan_phrases import combined_with, long_phrase, phrase, subject, whither
from bot.reading.sight import Found, Sight

_READINGS: tuple[Callable[[Sight, int], Found | None], ...] = (
    note,
    mark,
    grafted,
    yard,
    till,
    whither,
    combined_with,
    asking,
    subject,
    long_phrase,
    dashed,
    impossible,
    when,
    amount,
    homophone,
    article,
    see,
    part_of,
    units,
    letter,
    position,
    phrase,
)
"""Tried in this order: what is told by more words, or rarer ones, comes first."""


def scan(sight: Sight) -> list[Atom]:
    """Give the atoms of a text in its order; words that nothing knows become puzzles."""
    return list(atoms_in(sight))


def atoms_in(sight: Sight) -> Iterator[Atom]:
    """Give the same one by one, for whoever may not need the rest of the text."""
    at = 0
    while at < len(sight.words):
        before = len(sight.atoms)
        atom, at = _next(sight, at)
        if atom is not None:
            sight.atoms.append(atom)
        # A note adds its unit before itself.
        yield from sight.atoms[before:]


def _next(sight: Sight, at: int) -> Found:
    for reading in _READINGS:
        found = reading(sight, at)
        if found is not None:
            return found
    return Puzzle(*sight.span(at, at + 1), QuestionKind.NOT_UNDERSTOOD), at + 1
