import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.wording.place_names import compact
from scheduling.places import UnitName


def units(words: str) -> list[UnitName]:
    return [UnitName.parse(word) for word in words.split()]


YARD = [UnitName(box, letter) for box in range(1, 5) for letter in "abc"]
YARD += units("5 6 7 9 10a 10b 10c 10d 10e")


@pytest.mark.parametrize(
    ("named", "short"),
    [
        ("4a 4b 4c 6b", "4a-c 6b"),
        ("6b 4c 4a 4b 4a", "4a-c 6b"),
        ("4a 4b", "4ab"),
        ("4a 4c", "4ac"),
        ("4a 4b 4d", "4abd"),
        ("7", "7"),
        ("1 2 3 5", "1-3 5"),
        ("1 2", "1 2"),
        ("", ""),
    ],
)
def test_without_the_yard_only_neighbours_are_drawn_together(named: str, short: str) -> None:
    assert compact(units(named)) == short


@pytest.mark.parametrize(
    ("named", "short"),
    [
        ("4a 4b 4c", "4"),
        ("1a 1b 1c 2a 2b 2c 3a 3b 3c", "1-3"),
        ("1a 1b 1c 2a 2b 2c 4a", "1 2 4a"),
        ("1b 1c 2a 2b 2c 3a 3b 3c 4a", "1b-4a"),
        ("1b 1c 2a 2c 3a 3b 3c 4a", "1bc 2ac 3 4a"),
        ("1c 2a 2b", "1c 2ab"),
        ("5 6 7 9", "5-7 9"),
        ("3a 3b 3c 4a 4b 4c 5 6", "3-6"),
        ("10b 10c 10d", "10b-d"),
        ("8a 8b 8c", "8a-c"),
    ],
)
def test_with_the_yard_whole_boxes_stand_as_their_number(named: str, short: str) -> None:
    assert compact(units(named), YARD) == short


@given(st.sets(st.sampled_from(YARD)))
def test_the_short_form_says_exactly_the_named_units(named: set[UnitName]) -> None:
    assert spelled_out(compact(named, YARD)) == sorted(named)


def spelled_out(short: str) -> list[UnitName]:
    """Read the short form back, by rules written apart from the code under test."""
    found: list[UnitName] = []
    for piece in short.split():
        first, _, last = piece.partition("-")
        found += between(first, last) if last else box_or_letters(piece)
    return found


def between(first: str, last: str) -> list[UnitName]:
    if last.isalpha():
        last = first.rstrip("abcdefgh") + last
    start, end = box_or_letters(first)[0], box_or_letters(last)[-1]
    return [unit for unit in YARD if start <= unit <= end]


def box_or_letters(piece: str) -> list[UnitName]:
    box = int(piece.rstrip("abcdefgh"))
    letters = piece.lstrip("0123456789")
    return [u for u in YARD if u.box == box and (not letters or u.letter in letters)]
