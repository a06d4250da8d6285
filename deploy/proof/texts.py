"""Texts by the million: nonsense that nobody could mean, and what fingers make of real replies."""

import tomllib
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from random import Random

REPLIES = Path(__file__).parents[2] / "tests" / "bot" / "reading"
"""Where the collections of replies lie that the reading is held against."""

_NO_WORD = "bcdfghjklmnpqrstvwxz"
"""Letters of which no word of the trade can be made, nor anything near one if it is long."""

_ALPHABETS = (
    "абвгдежзийклмнопрстуфхцчшщъыьэюя",
    "αβγδεζηθικλμνξοπρστυφχψω",
    "אבגדהוזחטיכלמנסעפצקרשת",
    "日月火水木金土山川田花鳥風雪雨",
    "😀🐝👑🍯🐞🌧🌻🚚",
    "\u200b\u200d\ufeff\u202e\u0301\u00a0\u2028",
)
_MARKS = " .,;:!?-/()'\"&+*%#@=<>[]{}|\\~^_`\t\n"
_DIGITS = "0123456789"


def nonsense(random: Random) -> str:
    """A text that says nothing about any unit, though it may name some."""
    return random.choice(_NONSENSE)(random)


def half_sense(random: Random) -> str:
    """A text made of real replies, broken in one of many ways."""
    return random.choice(_HALF_SENSE)(random)


def _bytes(random: Random) -> str:
    raw = random.randbytes(_length(random))
    text = raw.decode(random.choice(("latin-1", "utf-8", "utf-16", "cp437")), "replace")
    # With digits it may by chance tell of a unit: "3l 5" is three litres fed to box 5.
    return "".join(letter for letter in text if not letter.isnumeric())


def _foreign(random: Random) -> str:
    alphabet = random.choice(_ALPHABETS) + "  "
    return "".join(random.choices(alphabet, k=_length(random)))


def _consonants(random: Random) -> str:
    return " ".join(_no_word(random) for _ in range(random.randint(1, 3)))


def _units_and_no_word(random: Random) -> str:
    return " ".join(f"{_unit(random)} {_no_word(random)}" for _ in range(random.randint(1, 3)))


def _marks_and_digits(random: Random) -> str:
    return "".join(random.choices(_MARKS + _DIGITS, k=_length(random)))


def _length(random: Random) -> int:
    """Of a text: mostly as short as replies are, seldom long."""
    return 1 + min(int(random.expovariate(1 / 12)), 300)


def _no_word(random: Random) -> str:
    # Begun and ended by letters that no word of the lexicon has there together.
    middle = "".join(random.choices(_NO_WORD, k=random.randint(4, 9)))
    return f"xq{middle}vw"


def _unit(random: Random) -> str:
    return f"{random.randint(0, 14)}{random.choice(('a', 'b', 'c', 'd', '', 'ab', 'a-c'))}"


def _as_said(random: Random) -> str:
    return random.choice(_replies())


def _slipped(random: Random) -> str:
    letters = list(_as_said(random))
    for _ in range(random.randint(1, 4)):
        _slip(letters, random)
    return "".join(letters)


def _slip(letters: list[str], random: Random) -> None:
    at = random.randrange(len(letters) + 1)
    match random.randrange(3):
        case 0:
            any_letter = random.choice((random.randint(32, 126), random.randint(0, 999)))
            letters.insert(at, chr(any_letter))
        case 1:
            del letters[at : at + 1]
        case _:
            letters[at : at + 2] = reversed(letters[at : at + 2])


def _words_shuffled(random: Random) -> str:
    words = f"{_as_said(random)} {_as_said(random)}".split()
    random.shuffle(words)
    return " ".join(words[: random.randint(1, 14)])


def _words_of_many(random: Random) -> str:
    words = random.choices(_words(), k=random.randint(1, 10))
    return " ".join(word if random.random() < 0.7 else _unit(random) for word in words)


def _two_glued(random: Random) -> str:
    return random.choice((" ", ", ", "\n", "", ";", " and ")).join(
        (_as_said(random), random.choice(_NONSENSE)(random))
    )


@cache
def _replies() -> tuple[str, ...]:
    return tuple(dict.fromkeys(_all_said()))


@cache
def _words() -> tuple[str, ...]:
    return tuple(sorted({word for reply in _replies() for word in reply.split()}))


def _all_said() -> Iterator[str]:
    for file in sorted(REPLIES.glob("*.toml")):
        for group in tomllib.loads(file.read_text(encoding="utf-8"))["group"]:
            yield from (say for say, *_ in group["replies"])


_NONSENSE: tuple[Callable[[Random], str], ...] = (
    _bytes,
    _foreign,
    _consonants,
    _units_and_no_word,
    _marks_and_digits,
)
_HALF_SENSE: tuple[Callable[[Random], str], ...] = (
    _as_said,
    _slipped,
    _words_shuffled,
    _words_of_many,
    _two_glued,
)
