"""Lengths and cuts, held against smsutil, which was written by others, and against the standard."""

import pytest
import smsutil
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bot.channels.sms.segments import (
    BASIC,
    EXTENSION,
    HeaderSize,
    fits,
    is_gsm7,
    segments,
    septets,
    split,
)

GSM7_TEXTS = st.text(st.sampled_from(sorted(BASIC | EXTENSION)), max_size=700)
LONG_TEXTS = st.text(st.sampled_from(sorted(BASIC | EXTENSION)), min_size=161, max_size=700)
ANY_TEXTS = st.text(
    st.characters(exclude_categories=["Cs"], exclude_characters="\x1b"), max_size=400
)


# smsutil 1.1.3 (Python package index), split(): parts of the default alphabet and of UCS-2.
@settings(max_examples=1000)
@given(GSM7_TEXTS)
def test_plain_texts_are_cut_as_by_smsutil(text: str) -> None:
    assume(text)
    assert list(split(text)) == [part.content for part in smsutil.split(text).parts]
    assert septets(text) == smsutil.split(text).total_bytes


@settings(max_examples=1000)
@given(ANY_TEXTS)
def test_any_text_is_cut_as_by_smsutil(text: str) -> None:
    assume(text)
    assert is_gsm7(text) == smsutil.is_valid_gsm(text)
    assert list(split(text)) == [part.content for part in smsutil.split(text).parts]


@given(ANY_TEXTS, st.sampled_from(HeaderSize))
def test_no_letter_is_lost_between_parts(text: str, header: HeaderSize) -> None:
    assert "".join(split(text, header)) == text


@given(LONG_TEXTS, st.sampled_from(HeaderSize))
def test_each_part_and_its_header_fit_into_140_octets(text: str, header: HeaderSize) -> None:
    parts = split(text, header)
    # Seven bits a letter; a header is filled up to whole septets (3GPP TS 23.040, 9.2.3.24).
    filled = -(-header.value * 8 // 7)
    assert all(filled + septets(part) <= 140 * 8 // 7 for part in parts)


# 160 and 153 septets, 70 and 67 UTF-16 units: 3GPP TS 23.038 and 23.040, from memory; the same in
# "Message encoding", developers.sinch.com/docs/sms/smpp/message-encoding.
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
        ("\N{HONEYBEE}" * 35, 1),
        ("\N{HONEYBEE}" * 36, 2),
    ],
)
def test_where_the_next_segment_begins(text: str, count: int) -> None:
    assert segments(text) == count


def test_a_wider_header_leaves_one_letter_less() -> None:
    assert [len(part) for part in split("a" * 305, HeaderSize.WIDE)] == [152, 152, 1]
    assert [len(part) for part in split("я" * 133, HeaderSize.WIDE)] == [66, 66, 1]


@pytest.mark.parametrize("extended", sorted(EXTENSION))
def test_an_escaped_character_is_not_cut_in_two(extended: str) -> None:
    first, second = split("a" * 152 + extended + "b" * 20)
    assert first == "a" * 152
    assert second.startswith(extended)


def test_a_picture_is_not_cut_in_two() -> None:
    first, second = split("я" * 66 + "\N{HONEYBEE}" + "я" * 20)
    assert first == "я" * 66
    assert second.startswith("\N{HONEYBEE}")


@given(st.text(st.sampled_from("ab€é🐝"), max_size=400), st.integers(0, 5))
def test_a_text_fits_where_it_takes_no_more_segments_than_there_is_room_for(
    text: str, most: int
) -> None:
    assert fits(text, most) == (segments(text) <= most)
