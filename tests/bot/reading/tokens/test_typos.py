"""One slip of the finger, against the distance that a library of string distances measures."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rapidfuzz.distance import OSA

from bot.reading.tokens.token import Token, TokenForm
from bot.reading.tokens.typos import correct_typos, is_one_typo

FEW_LETTERS = st.text("abc", max_size=6)
"""So few that many pairs of words are near each other."""


@pytest.mark.parametrize("slip", ["queens", "queen", "queenss", "queesn", "quwens", "ueens"])
def test_a_slip_is_known_for_what_was_meant(slip: str) -> None:
    assert is_one_typo(slip, "queens")


@pytest.mark.parametrize("other", ["quee", "qeuesn", "quwenz", "yards", "", "4a eggs"])
def test_two_slips_are_another_word(other: str) -> None:
    assert not is_one_typo(other, "queens")


@given(FEW_LETTERS, FEW_LETTERS)
def test_one_slip_is_a_distance_of_one_at_most(said: str, word: str) -> None:
    assert is_one_typo(said, word) == (OSA.distance(said, word) <= 1)


@pytest.mark.parametrize(
    ("said", "meant"),
    [("egxs", "eggs"), ("egxz", "egxz"), ("qxxen", "qxxen"), ("emxrgxd", "emerged")],
)
def test_a_short_word_has_one_slip_and_a_long_one_two(said: str, meant: str) -> None:
    (word,) = correct_typos([Token(TokenForm.WORD, said, 0, len(said))], ())
    assert word.text == meant
