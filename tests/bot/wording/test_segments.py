"""Lengths over SMS, held against smsutil, which was written by others."""

import pytest
import smsutil
from hypothesis import assume, given
from hypothesis import strategies as st

from bot.wording.segments import BASIC, EXTENSION, is_gsm7, segments, septets, split

GSM7_TEXTS = st.text(st.sampled_from(sorted(BASIC | EXTENSION)), max_size=700)
ANY_TEXTS = st.text(
    st.characters(exclude_categories=["Cs"], exclude_characters="\x1b"), max_size=400
)


# smsutil 1.1.3 (Python package index), split(): parts of the default alphabet and of UCS-2.
@given(GSM7_TEXTS)
def test_plain_texts_are_cut_as_by_smsutil(text: str) -> None:
    assume(text)
    assert list(split(text)) == [part.content for part in smsutil.split(text).parts]
    assert septets(text) == smsutil.split(text).total_bytes


@given(ANY_TEXTS)
def test_any_text_is_cut_as_by_smsutil(text: str) -> None:
    assume(text)
    assert is_gsm7(text) == smsutil.is_valid_gsm(text)
    assert list(split(text)) == [part.content for part in smsutil.split(text).parts]


@given(ANY_TEXTS)
def test_no_letter_is_lost_between_parts(text: str) -> None:
    assert "".join(split(text)) == text


# 160 and 153 septets, 70 and 67 UTF-16 units: 3GPP TS 23.038 and 23.040, from memory.
@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("", 0),
        ("a" * 160, 1),
        ("a" * 161, 2),
        ("a" * 306, 2),
        ("a" * 307, 3),
        ("a" * 459, 3),
        ("€" * 80, 1),
        ("€" * 81, 2),
        ("½" * 70, 1),
        ("½" * 71, 2),
        ("½" * 135, 3),
    ],
)
def test_where_the_next_segment_begins(text: str, count: int) -> None:
    assert segments(text) == count


def test_an_escaped_character_is_not_cut_in_two() -> None:
    first, second = split("a" * 152 + "€" + "b" * 20)
    assert first == "a" * 152
    assert second.startswith("€")


def test_a_picture_is_not_cut_in_two() -> None:
    first, second = split("я" * 66 + "\N{HONEYBEE}" + "я" * 20)
    assert first == "я" * 66
    assert second.startswith("\N{HONEYBEE}")


def test_septets_of_a_text_outside_the_alphabet_are_refused() -> None:
    with pytest.raises(ValueError, match="not in the GSM 7-bit alphabet"):
        septets("half a frame: ½")
