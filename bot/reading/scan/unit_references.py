"""Which units a text refers to, before it is known whether they exist; their letters."""

from collections.abc import Sequence
from dataclasses import dataclass
from string import digits

from bot.reading.lexicon.measures import LETTER_WORDS, POSITIONS
from bot.reading.tokens.amounts import spoken_number
from bot.reading.tokens.token import Token, TokenForm, text_at
from scheduling.places import LETTERS


@dataclass(frozen=True)
class UnitReference:
    """One name or one run of names.

    ``box`` is None when only a letter was said; ``letter`` is empty for the whole box;
    ``position`` is "left", "middle" or "right"; ``to`` is the far end of a run; ``count`` how many
    units the box was said to have: "all three of box 4".
    """

    box: int | None
    letter: str = ""
    position: str = ""
    to: "UnitReference | None" = None
    count: int | None = None


_BOX_WORDS = frozenset({"box", "boxes", "unit", "units", "nuc", "nucs", "number", "hive"})
_BEFORE_LETTER = frozenset({":", "unit", "compartment", "section", "side", "letter"})
_AFTER_POSITION = frozenset({"side", "one", "unit", "compartment", "hand", "-"})
_LINKS = frozenset({",", "and", "/", "&", "+"})
_RUNS = frozenset({"-", "thru", "through"})


def unit_references_at(
    tokens: Sequence[Token], at: int, *, to_is_run: bool
) -> tuple[tuple[UnitReference, ...], int] | None:
    """Read names of units of one list at ``at``; give them and the index after them.

    ``to_is_run`` says whether "to" between two names makes a run: not in "took 4a to 11".
    """
    found = _positions(tokens, at) or _counted(tokens, at) or _boxed(tokens, at)
    if found is None:
        return None
    references, after = found
    return _run(tokens, references, after, to_is_run=to_is_run)


def _positions(tokens: Sequence[Token], at: int) -> tuple[tuple[UnitReference, ...], int] | None:
    """Read "left of 4", "the middle one in box 4"."""
    start = at + (text_at(tokens, at) == "the")
    position = POSITIONS.get(text_at(tokens, start))
    after = start + 1
    while text_at(tokens, after) in _AFTER_POSITION:
        after += 1
    if position is None or text_at(tokens, after) not in ("of", "in"):
        return None
    box = _box(tokens, after + 1)
    return ((UnitReference(box[0], position=position),), box[1]) if box else None


def _box(tokens: Sequence[Token], at: int) -> tuple[int, int] | None:
    start = at
    while text_at(tokens, start) in _BOX_WORDS:
        start += 1
    text = text_at(tokens, start)
    if start < len(tokens) and tokens[start].form is TokenForm.NUMBER and text.isdecimal():
        return int(text), start + 1
    number, after = spoken_number(tokens, start)
    return None if number is None else (int(number), after)


def _counted(tokens: Sequence[Token], at: int) -> tuple[tuple[UnitReference, ...], int] | None:
    """Read "all three of box 4", "both of 8", "every one of box 3"."""
    said = [text_at(tokens, at + step) for step in range(3)]
    count: float | None = 2 if said[0] == "both" else None
    start = at + 1
    if said[0] in ("all", "the"):
        count, start = (
            (int(said[1]), at + 2) if said[1].isdecimal() else spoken_number(tokens, at + 1)
        )
    elif said[0] in ("every", "each"):
        start += said[1] in ("one", "unit", "compartment")
    elif said[0] != "both":
        return None
    start += text_at(tokens, start) in ("units", "compartments", "nucs", "sides")
    if text_at(tokens, start) not in ("of", "in") or (count is None and said[0] in ("all", "the")):
        return None
    box = _box(tokens, start + 1 + (text_at(tokens, start + 1) == "the"))
    if box is None or is_letter(tokens, box[1]) or text_at(tokens, box[1]) in POSITIONS:
        return None
    return (UnitReference(box[0], count=None if count is None else int(count)),), box[1]


def _boxed(tokens: Sequence[Token], at: int) -> tuple[tuple[UnitReference, ...], int] | None:
    start = at
    if text_at(tokens, start) == "all" and text_at(tokens, start + 1) == "of":
        start += 2
    while text_at(tokens, start) in _BOX_WORDS:
        start += 1
    if start < len(tokens) and tokens[start].form is TokenForm.GLUED:
        references = _glued(tokens[start].text)
        return _more_letters(tokens, references, start + 1)
    box = _box(tokens, start)
    if box is None or (
        start == at and text_at(tokens, at) == "one" and not _lettered_next(tokens, at)
    ):
        return None
    return _lettered(tokens, *box)


def _glued(text: str) -> tuple[UnitReference, ...]:
    """Give the units of "4b" and "4abc"; of "4xyz" one that no box has."""
    letters = text.lstrip(digits)
    box = int(text.removesuffix(letters))
    each = letters if set(letters) <= set(LETTERS) else (letters,)
    return tuple(UnitReference(box, letter) for letter in each)


def _lettered_next(tokens: Sequence[Token], at: int) -> bool:
    return is_letter(tokens, at + 1) or text_at(tokens, at + 1) in {*POSITIONS, *_RUNS}


def _lettered(tokens: Sequence[Token], box: int, at: int) -> tuple[tuple[UnitReference, ...], int]:
    """Read what follows a box's number: a letter, a position, or nothing."""
    if text_at(tokens, at) in POSITIONS:
        after = _past_side(tokens, at + 1)
        return _more_positions(
            tokens, (UnitReference(box, position=POSITIONS[text_at(tokens, at)]),), after
        )
    start = at + (text_at(tokens, at) in _BEFORE_LETTER or _joined_letter(tokens, at))
    if is_letter(tokens, start):
        return _more_letters(
            tokens, (UnitReference(box, LETTER_WORDS[text_at(tokens, start)]),), start + 1
        )
    return (UnitReference(box),), at


def _past_side(tokens: Sequence[Token], at: int) -> int:
    while text_at(tokens, at) in ("side", "hand", "compartment") or (
        text_at(tokens, at) == "-" and text_at(tokens, at + 1) == "hand"
    ):
        at += 1
    return at


def _joined_letter(tokens: Sequence[Token], at: int) -> bool:
    """Say whether a mark joins a letter to its box: "4-b", "4.b", "4/b"."""
    if text_at(tokens, at) not in ("-", ".", "/", "_") or len(text_at(tokens, at + 1)) != 1:
        return False
    close = tokens[at - 1].end == tokens[at].start and tokens[at].end == tokens[at + 1].start
    return close and is_letter(tokens, at + 1)


def _more_letters(
    tokens: Sequence[Token], references: tuple[UnitReference, ...], at: int
) -> tuple[tuple[UnitReference, ...], int]:
    """Read the further letters of "4a, b and c" or "4 a b c"."""
    while True:
        start = at + (text_at(tokens, at) in _LINKS)
        start += text_at(tokens, start) == "and"
        single = len(text_at(tokens, start)) == 1 and is_letter(tokens, start)
        if not single or (text_at(tokens, start) == "a" and start == at):
            return references, at
        references, at = (
            (*references, UnitReference(references[-1].box, text_at(tokens, start))),
            start + 1,
        )


def _more_positions(
    tokens: Sequence[Token], references: tuple[UnitReference, ...], at: int
) -> tuple[tuple[UnitReference, ...], int]:
    while True:
        start = at + (text_at(tokens, at) in _LINKS)
        start += start > at and text_at(tokens, start) in ("and", "the")
        if text_at(tokens, start) not in POSITIONS:
            return references, at
        references = (
            *references,
            UnitReference(references[-1].box, position=POSITIONS[text_at(tokens, start)]),
        )
        at = _past_side(tokens, start + 1)


def _run(
    tokens: Sequence[Token], references: tuple[UnitReference, ...], at: int, *, to_is_run: bool
) -> tuple[tuple[UnitReference, ...], int]:
    """Read the far end of "4a-c", "4a-5b", "1-3" and what is listed after it."""
    if text_at(tokens, at) not in _RUNS and not (text_at(tokens, at) == "to" and to_is_run):
        return references, at
    first = references[-1]
    if is_letter(tokens, at + 1) and first.letter and first.box is not None:
        end = UnitReference(first.box, LETTER_WORDS[text_at(tokens, at + 1)])
        run = (*references[:-1], UnitReference(first.box, first.letter, to=end))
        return _more_letters(tokens, run, at + 2)
    far = _boxed(tokens, at + 1)
    if far is None or first.position or far[0][0].position:
        return references, at
    run = (*references[:-1], UnitReference(first.box, first.letter, to=far[0][0]), *far[0][1:])
    return run, far[1]


_LAYING = frozenset({("laying", "queen"), ("laying", "worker")})
_ARTICLE_BEFORE = frozenset(
    [
        "virgin", "queen", "dud", "cell", "caged", "good", "spotty", "bit", "few", "little",
        "lot", "jar", "quart", "pint", "half", "quarter", "frame", "trap", "drone", "nice",
        "dead", "new", "mated", "ripe", "solid", "note", "third", "gallon", "sealed", "torn",
        "shake", "young", "great", "lovely", "big", "small", "marked", "capped", "swarm",
    ]
)  # fmt: skip
"""After these "a" is an article as well as a compartment."""


def is_letter(tokens: Sequence[Token], at: int) -> bool:
    """Say whether a compartment's letter stands at ``at``, and not the article "a"."""
    return text_at(tokens, at) in LETTER_WORDS and not article_or_letter(tokens, at)


def article_or_letter(tokens: Sequence[Token], at: int) -> bool:
    """Say whether "a" at ``at`` could be an article or a compartment."""
    following = text_at(tokens, at + 1), text_at(tokens, at + 2)
    if following == ("half", "a"):
        return False
    noun = following[0] in _ARTICLE_BEFORE or following in _LAYING
    return text_at(tokens, at) == "a" and noun
