"""Units and yards by name, and what could be a unit or a word."""

from bot.reading.articles import article_or_letter, is_letter
from bot.reading.atoms import AtYard, Puzzle, Units
from bot.reading.lexicon.measures import LETTER_WORDS, MAY_BE_NUMBERS, NUMBERS, POSITIONS
from bot.reading.picks import Pick, picks_at
from bot.reading.result import QuestionKind
from bot.reading.sight import HARD, SOFT, Found, Sight
from bot.reading.stray_numbers import stray_number
from bot.reading.tokens.token import TokenForm

_PREPOSITIONS = frozenset({"in", "into", "to", "on", "at"})
_PLURALS = frozenset({"virgins", "queens", "larvae", "drones"})
_COUNTED = frozenset({"eggs", "cells", "virgin", "queen", "cell", "dud", "duds"})
_AUXILIARIES = frozenset(
    ["is", "are", "did", "does", "do", "has", "have", "was", "were", "can", "will", "should"]
)


def yard(sight: Sight, at: int) -> Found | None:
    """Read a yard's name."""
    start = at + (sight.text_at(at) == "at")
    start += sight.text_at(start) == "the"
    for name, parts in sight.yards:
        said = tuple(sight.text_at(start + step) for step in range(len(parts)))
        if said == parts:
            after = start + len(parts)
            after += sight.text_at(after) == "yard"
            return AtYard(*sight.span(at, after), name), after
    return None


def units(sight: Sight, at: int) -> Found | None:
    """Read names of units, with the preposition before them."""
    start = at + (sight.text_at(at) in _PREPOSITIONS)
    start += 2 * (sight.moves and (sight.text_at(at), sight.text_at(at + 1)) == ("out", "of"))
    if start >= len(sight.words):
        return None
    found = picks_at(sight.words, start, to_is_run=not sight.moves)
    if found is None:
        return None
    counted = stray_number(sight, found[0], start, found[1])
    if counted is not None:
        return counted, found[1]
    if _counts(sight, found[0][-1], found[1]):
        return Puzzle(*sight.span(at, found[1]), QuestionKind.WHICH_MEANING), found[1]
    return Units(*sight.span(at, found[1]), found[0], into=start > at), found[1]


def part_of(sight: Sight, at: int) -> Found | None:
    """Ask about "2 of 3 laying": which two is not said."""
    parts = [sight.text_at(at + step) for step in range(3)]
    numbers = all(part.isdigit() or part in NUMBERS for part in (parts[0], parts[2]))
    if parts[1] != "of" or not numbers or sight.text_at(at - 1) in ("all", "box", "unit"):
        return None
    return Puzzle(*sight.span(at, at + 3), QuestionKind.WHICH_MEANING), at + 3


def _counts(sight: Sight, pick: Pick, after: int) -> bool:
    """Say whether a number may count what follows it: "4b 2 virgins" is not box 2."""
    if pick.letter or pick.position or pick.to or sight.words[after - 1].form is TokenForm.GLUED:
        return False
    if sight.text_at(after) == "of" or sight.text_at(after - 2) in ("all", "only"):
        return True
    noun = sight.text_at(after)
    before = sight.atoms[-1] if sight.atoms else None
    lettered = isinstance(before, Units) and bool(before.picks[-1].letter)
    return noun in _PLURALS or (lettered and noun in _COUNTED)


def letter(sight: Sight, at: int) -> Found | None:
    """Read a compartment's letter whose box was named before: "4a eggs, b none"."""
    lone = len(sight.text_at(at)) == 1 and is_letter(sight.words, at)
    if not lone or not any(isinstance(atom, Units) for atom in sight.atoms):
        return None
    if sight.text_at(at) == "a" and not _after_break(sight, at):
        return None
    return Units(*sight.span(at, at + 1), (Pick(None, sight.text_at(at)),)), at + 1


def position(sight: Sight, at: int) -> Found | None:
    """Read a position whose box was named before: "4 left eggs, right none"."""
    start = at + (sight.text_at(at) == "the")
    where = POSITIONS.get(sight.text_at(start))
    named = [atom for atom in sight.atoms if isinstance(atom, Units)]
    if where is None or not named or not named[-1].picks[-1].position:
        return None
    if not _after_break(sight, at):
        return None
    return Units(*sight.span(at, start + 1), (Pick(None, position=where),)), start + 1


def _after_break(sight: Sight, at: int) -> bool:
    before = sight.text_at(at - 1)
    return before in {*SOFT, *HARD, "and", "except"}


_HEARD_LETTERS = {"see": "c"}
"""Letters that dictation writes as words, beside those that only ever are letters."""


def homophone(sight: Sight, at: int) -> Found | None:
    """Ask about "to be eggs": 2b, or "to be"."""
    text, following = sight.text_at(at), sight.text_at(at + 1)
    letter_said = _HEARD_LETTERS.get(following) or LETTER_WORDS.get(following)
    if text not in MAY_BE_NUMBERS or letter_said is None:
        return None
    if following in ("a", "eh", "ay", "see") and not (at == 0 and sight.text_at(at + 2)):
        return None
    unit = f"{MAY_BE_NUMBERS[text]}{letter_said}"
    return Puzzle(*sight.span(at, at + 2), QuestionKind.WHICH_MEANING, (unit,)), at + 2


def article(sight: Sight, at: int) -> Found | None:
    """Ask about "4 a virgin": 4a, or a virgin in box 4."""
    before = sight.atoms[-1] if at and sight.atoms else None
    if not isinstance(before, Units) or before.end != sight.words[at - 1].end:
        return None
    if not sight.whole_box(before) or not article_or_letter(sight.words, at):
        return None
    span = before.start, sight.words[at].end
    unit = f"{before.picks[-1].box}a"
    return Puzzle(*span, QuestionKind.WHICH_MEANING, (unit,)), at + 1


def see(sight: Sight, at: int) -> Found | None:
    """Ask about "four see eggs": 4c, or seen in box 4."""
    before = sight.atoms[-1] if at and sight.atoms else None
    if sight.text_at(at) != "see" or not isinstance(before, Units):
        return None
    if not sight.whole_box(before):
        return None
    span = before.start, sight.words[at].end
    unit = f"{before.picks[-1].box}c"
    return Puzzle(*span, QuestionKind.WHICH_MEANING, (unit,)), at + 1


def asking(sight: Sight, at: int) -> Found | None:
    """Notice "is 4b laying", which asks and does not tell."""
    first = at == 0 or sight.text_at(at - 1) in HARD
    if not first or sight.text_at(at) not in _AUXILIARIES or not sight.units_at(at + 1):
        return None
    return Puzzle(*sight.span(at, at + 1), QuestionKind.NOT_UNDERSTOOD), at + 1
