"""Which units a text names, before it is known whether they exist."""

from collections.abc import Sequence
from dataclasses import dataclass

from bot.reading.amounts import spoken_number
from bot.reading.lexicon.measures import LETTER_WORDS, POSITIONS
from bot.reading.words import Form, Word


@dataclass(frozen=True)
class Pick:
    """One name or one run of names.

    ``box`` is None when only a letter was said; ``letter`` is empty for the whole box;
    ``position`` is "left", "middle" or "right"; ``to`` is the far end of a run.
    """

    box: int | None
    letter: str = ""
    position: str = ""
    to: "Pick | None" = None


_BOX_WORDS = frozenset({"box", "boxes", "unit", "units", "nuc", "nucs", "number", "hive"})
_LINKS = frozenset({",", "and", "/", "&", "+"})
_RUNS = frozenset({"-", "thru", "through"})
_LAYING = frozenset({("laying", "queen"), ("laying", "worker")})
_ARTICLE_BEFORE = frozenset(
    [
        "virgin",
        "queen",
        "dud",
        "cell",
        "caged",
        "good",
        "spotty",
        "bit",
        "few",
        "little",
        "lot",
        "jar",
        "quart",
        "pint",
        "half",
        "quarter",
        "frame",
        "trap",
        "drone",
        "nice",
        "dead",
        "new",
        "mated",
        "ripe",
        "solid",
        "note",
        "third",
        "gallon",
        "sealed",
        "torn",
        "shake",
        "young",
        "great",
        "lovely",
        "big",
        "small",
        "marked",
        "capped",
        "swarm",
    ]
)
"""After these "a" is an article as well as a compartment."""


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""


def picks_at(
    words: Sequence[Word], at: int, *, to_is_run: bool
) -> tuple[tuple[Pick, ...], int] | None:
    """Read names of units of one list at ``at``; give them and the index after them.

    ``to_is_run`` says whether "to" between two names makes a run: not in "took 4a to 11".
    """
    found = _positions(words, at) or _boxed(words, at)
    if found is None:
        return None
    picks, after = found
    return _run(words, picks, after, to_is_run=to_is_run)


def _positions(words: Sequence[Word], at: int) -> tuple[tuple[Pick, ...], int] | None:
    """Read "left of 4", "the middle one in box 4"."""
    start = at + (_text(words, at) == "the")
    position = POSITIONS.get(_text(words, start))
    after = start + 1
    while _text(words, after) in ("side", "one", "unit", "compartment"):
        after += 1
    if position is None or _text(words, after) not in ("of", "in"):
        return None
    box = _box(words, after + 1)
    return ((Pick(box[0], position=position),), box[1]) if box else None


def _box(words: Sequence[Word], at: int) -> tuple[int, int] | None:
    start = at
    while _text(words, start) in _BOX_WORDS:
        start += 1
    text = _text(words, start)
    if start < len(words) and words[start].form is Form.NUMBER and text.isdigit():
        return int(text), start + 1
    number, after = spoken_number(words, start)
    return None if number is None else (int(number), after)


def _boxed(words: Sequence[Word], at: int) -> tuple[tuple[Pick, ...], int] | None:
    start = at
    if _text(words, start) == "all" and _text(words, start + 1) == "of":
        start += 2
    while _text(words, start) in _BOX_WORDS:
        start += 1
    if start < len(words) and words[start].form is Form.GLUED:
        digits = words[start].text.rstrip("abcdefgh")
        letters = words[start].text[len(digits) :]
        picks = tuple(Pick(int(digits), letter) for letter in letters)
        return _more_letters(words, picks, start + 1)
    box = _box(words, start)
    if box is None or (start == at and _text(words, at) == "one" and not _lettered_next(words, at)):
        return None
    return _lettered(words, *box)


def _lettered_next(words: Sequence[Word], at: int) -> bool:
    return is_letter(words, at + 1) or _text(words, at + 1) in {*POSITIONS, *_RUNS}


def _lettered(words: Sequence[Word], box: int, at: int) -> tuple[tuple[Pick, ...], int]:
    """Read what follows a box's number: a letter, a position, or nothing."""
    if _text(words, at) in POSITIONS:
        return _more_positions(words, (Pick(box, position=POSITIONS[_text(words, at)]),), at + 1)
    start = at + (_text(words, at) == ":")
    if is_letter(words, start):
        return _more_letters(words, (Pick(box, LETTER_WORDS[_text(words, start)]),), start + 1)
    return (Pick(box),), at


def is_letter(words: Sequence[Word], at: int) -> bool:
    """Say whether a compartment's letter stands at ``at``, and not the article "a"."""
    return _text(words, at) in LETTER_WORDS and not article_or_letter(words, at)


def article_or_letter(words: Sequence[Word], at: int) -> bool:
    """Say whether "a" at ``at`` could be an article or a compartment."""
    following = _text(words, at + 1), _text(words, at + 2)
    noun = following[0] in _ARTICLE_BEFORE or following in _LAYING
    return _text(words, at) == "a" and noun


def _more_letters(
    words: Sequence[Word], picks: tuple[Pick, ...], at: int
) -> tuple[tuple[Pick, ...], int]:
    """Read the further letters of "4a, b and c" or "4 a b c"."""
    while True:
        start = at + (_text(words, at) in _LINKS)
        start += _text(words, start) == "and"
        if not _single(words, start) or (_text(words, start) == "a" and start == at):
            return picks, at
        picks, at = (*picks, Pick(picks[-1].box, _text(words, start))), start + 1


def _single(words: Sequence[Word], at: int) -> bool:
    return len(_text(words, at)) == 1 and is_letter(words, at)


def _more_positions(
    words: Sequence[Word], picks: tuple[Pick, ...], at: int
) -> tuple[tuple[Pick, ...], int]:
    while True:
        start = at + (_text(words, at) in _LINKS)
        if _text(words, start) not in POSITIONS:
            return picks, at
        picks = (*picks, Pick(picks[-1].box, position=POSITIONS[_text(words, start)]))
        at = start + 1


def _run(
    words: Sequence[Word], picks: tuple[Pick, ...], at: int, *, to_is_run: bool
) -> tuple[tuple[Pick, ...], int]:
    """Read the far end of "4a-c", "4a-5b", "1-3" and what is listed after it."""
    if _text(words, at) not in _RUNS and not (_text(words, at) == "to" and to_is_run):
        return picks, at
    first = picks[-1]
    if is_letter(words, at + 1) and first.letter and first.box is not None:
        end = Pick(first.box, LETTER_WORDS[_text(words, at + 1)])
        run = (*picks[:-1], Pick(first.box, first.letter, to=end))
        return _after_run(words, run, at + 2)
    far = _boxed(words, at + 1)
    if far is None or first.position or far[0][0].position:
        return picks, at
    run = (*picks[:-1], Pick(first.box, first.letter, to=far[0][0]), *far[0][1:])
    return run, far[1]


def _after_run(
    words: Sequence[Word], picks: tuple[Pick, ...], at: int
) -> tuple[tuple[Pick, ...], int]:
    return _more_letters(words, picks, at)
