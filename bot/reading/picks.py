"""Which units a text names, before it is known whether they exist."""

from collections.abc import Sequence
from dataclasses import dataclass
from string import digits

from bot.reading.articles import is_letter
from bot.reading.articles import text_at as _text
from bot.reading.lexicon.measures import LETTER_WORDS, POSITIONS
from bot.reading.numbers import spoken_number
from bot.reading.words import Form, Word
from scheduling.places import LETTERS


@dataclass(frozen=True)
class Pick:
    """One name or one run of names.

    ``box`` is None when only a letter was said; ``letter`` is empty for the whole box;
    ``position`` is "left", "middle" or "right"; ``to`` is the far end of a run; ``count`` how many
    units the box was said to have: "all three of box 4".
    """

    box: int | None
    letter: str = ""
    position: str = ""
    to: "Pick | None" = None
    count: int | None = None


_BOX_WORDS = frozenset({"box", "boxes", "unit", "units", "nuc", "nucs", "number", "hive"})
_BEFORE_LETTER = frozenset({":", "unit", "compartment", "section", "side", "letter"})
_AFTER_POSITION = frozenset({"side", "one", "unit", "compartment", "hand", "-"})
_LINKS = frozenset({",", "and", "/", "&", "+"})
_RUNS = frozenset({"-", "thru", "through"})


def picks_at(
    words: Sequence[Word], at: int, *, to_is_run: bool
) -> tuple[tuple[Pick, ...], int] | None:
    """Read names of units of one list at ``at``; give them and the index after them.

    ``to_is_run`` says whether "to" between two names makes a run: not in "took 4a to 11".
    """
    found = _positions(words, at) or _counted(words, at) or _boxed(words, at)
    if found is None:
        return None
    picks, after = found
    return _run(words, picks, after, to_is_run=to_is_run)


def _positions(words: Sequence[Word], at: int) -> tuple[tuple[Pick, ...], int] | None:
    """Read "left of 4", "the middle one in box 4"."""
    start = at + (_text(words, at) == "the")
    position = POSITIONS.get(_text(words, start))
    after = start + 1
    while _text(words, after) in _AFTER_POSITION:
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


def _counted(words: Sequence[Word], at: int) -> tuple[tuple[Pick, ...], int] | None:
    """Read "all three of box 4", "both of 8", "every one of box 3"."""
    said = [_text(words, at + step) for step in range(3)]
    count: float | None = 2 if said[0] == "both" else None
    start = at + 1
    if said[0] in ("all", "the"):
        count, start = (int(said[1]), at + 2) if said[1].isdigit() else spoken_number(words, at + 1)
    elif said[0] in ("every", "each"):
        start += said[1] in ("one", "unit", "compartment")
    elif said[0] != "both":
        return None
    start += _text(words, start) in ("units", "compartments", "nucs", "sides")
    if _text(words, start) not in ("of", "in") or (count is None and said[0] in ("all", "the")):
        return None
    box = _box(words, start + 1 + (_text(words, start + 1) == "the"))
    if box is None or is_letter(words, box[1]) or _text(words, box[1]) in POSITIONS:
        return None
    return (Pick(box[0], count=None if count is None else int(count)),), box[1]


def _boxed(words: Sequence[Word], at: int) -> tuple[tuple[Pick, ...], int] | None:
    start = at
    if _text(words, start) == "all" and _text(words, start + 1) == "of":
        start += 2
    while _text(words, start) in _BOX_WORDS:
        start += 1
    if start < len(words) and words[start].form is Form.GLUED:
        picks = _glued(words[start].text)
        return _more_letters(words, picks, start + 1)
    box = _box(words, start)
    if box is None or (start == at and _text(words, at) == "one" and not _lettered_next(words, at)):
        return None
    return _lettered(words, *box)


def _glued(text: str) -> tuple[Pick, ...]:
    """Give the units of "4b" and "4abc"; of "4xyz" one that no box has."""
    letters = text.lstrip(digits)
    box = int(text.removesuffix(letters))
    each = letters if set(letters) <= set(LETTERS) else (letters,)
    return tuple(Pick(box, letter) for letter in each)


def _lettered_next(words: Sequence[Word], at: int) -> bool:
    return is_letter(words, at + 1) or _text(words, at + 1) in {*POSITIONS, *_RUNS}


def _lettered(words: Sequence[Word], box: int, at: int) -> tuple[tuple[Pick, ...], int]:
    """Read what follows a box's number: a letter, a position, or nothing."""
    if _text(words, at) in POSITIONS:
        after = _past_side(words, at + 1)
        return _more_positions(words, (Pick(box, position=POSITIONS[_text(words, at)]),), after)
    start = at + (_text(words, at) in _BEFORE_LETTER or _joined_letter(words, at))
    if is_letter(words, start):
        return _more_letters(words, (Pick(box, LETTER_WORDS[_text(words, start)]),), start + 1)
    return (Pick(box),), at


def _past_side(words: Sequence[Word], at: int) -> int:
    while _text(words, at) in ("side", "hand", "compartment") or (
        _text(words, at) == "-" and _text(words, at + 1) == "hand"
    ):
        at += 1
    return at


def _joined_letter(words: Sequence[Word], at: int) -> bool:
    """Say whether a mark joins a letter to its box: "4-b", "4.b", "4/b"."""
    if _text(words, at) not in ("-", ".", "/", "_") or len(_text(words, at + 1)) != 1:
        return False
    close = words[at - 1].end == words[at].start and words[at].end == words[at + 1].start
    return close and is_letter(words, at + 1)


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
        start += start > at and _text(words, start) in ("and", "the")
        if _text(words, start) not in POSITIONS:
            return picks, at
        picks = (*picks, Pick(picks[-1].box, position=POSITIONS[_text(words, start)]))
        at = _past_side(words, start + 1)


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
