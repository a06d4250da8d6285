"""Parts of long messages: numbered by their header, and joined in whatever order they come."""

import random
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.sms.concat_store import WAIT, is_given_up, joined_octets, whole_of
from bot.channels.sms.header import PartNumber, read_header, write_header
from bot.channels.sms.segments import HeaderSize, split

ADA = "+12025550123"


@st.composite
def part_numbers(draw: st.DrawFn) -> PartNumber:
    size = draw(st.sampled_from(HeaderSize))
    total = draw(st.integers(1, 255))
    most = 255 if size is HeaderSize.NARROW else 65535
    return PartNumber(draw(st.integers(0, most)), total, draw(st.integers(1, total)), size)


# Octets of 3GPP TS 23.040, 9.2.3.24.1 and 9.2.3.24.8 (from memory).
@pytest.mark.parametrize(
    ("part", "octets"),
    [
        (PartNumber(0x42, 3, 2), "050003420302"),
        (PartNumber(0x1234, 3, 2, HeaderSize.WIDE), "06080412340302"),
    ],
)
def test_a_header_s_octets(part: PartNumber, octets: str) -> None:
    assert write_header(part).hex() == octets
    assert len(write_header(part)) == part.size.value


@given(part_numbers(), st.binary(max_size=140))
def test_a_header_is_read_as_it_was_written(part: PartNumber, words: bytes) -> None:
    assert read_header(write_header(part) + words) == (part, words)


def test_the_number_is_found_behind_other_elements() -> None:
    # Ports (05) come first here; the words begin behind the whole header.
    octets = bytes.fromhex("0b 0504 0b84 23f0 0003 42 02 01".replace(" ", ""))
    assert read_header(octets + b"eggs") == (PartNumber(0x42, 2, 1), b"eggs")


@pytest.mark.parametrize(
    "octets",
    [
        "",
        "00",
        "050003420300",
        "050003420304",
        "0500",
        "ff0003420302",
        "0400034203",
        "06080312340302",
    ],
)
def test_a_header_that_says_nothing_sound_numbers_no_part(octets: str) -> None:
    assert read_header(bytes.fromhex(octets))[0] is None


@given(st.binary(max_size=160))
def test_any_octets_can_be_read(octets: bytes) -> None:
    part, rest = read_header(octets)
    assert octets.endswith(rest)
    assert part is None or 1 <= part.number <= part.total


@pytest.mark.parametrize(
    ("reference", "total", "number", "size"),
    [
        (256, 2, 1, HeaderSize.NARROW),
        (65536, 2, 1, HeaderSize.WIDE),
        (-1, 2, 1, HeaderSize.WIDE),
        (1, 256, 1, HeaderSize.NARROW),
        (1, 2, 3, HeaderSize.NARROW),
        (1, 2, 0, HeaderSize.NARROW),
    ],
)
def test_what_no_header_can_say_is_refused(
    reference: int, total: int, number: int, size: HeaderSize
) -> None:
    with pytest.raises(ValueError, match="no part"):
        PartNumber(reference, total, number, size)


def test_a_long_report_is_whole_once_its_last_part_came() -> None:
    said = ", ".join(f"{box}a eggs {box}b no eggs" for box in range(1, 21))
    parts = dict(enumerate((part.encode("utf-16-be") for part in split(said)), start=1))
    numbers = list(parts)
    random.Random(5).shuffle(numbers)  # noqa: S311 - an order, no secret
    whole = whole_of(ADA, PartNumber(7, len(parts), 1))
    came: dict[int, bytes] = {}
    for number in numbers[:-1]:
        came[number] = parts[number]
        assert joined_octets(whole, came) is None
    came[numbers[-1]] = parts[numbers[-1]]
    assert (joined_octets(whole, came) or b"").decode("utf-16-be") == said


def test_a_letter_cut_in_two_by_a_phone_is_whole_again() -> None:
    said = ("я" * 66 + "\N{HONEYBEE}").encode("utf-16-be")
    whole = whole_of(ADA, PartNumber(7, 2, 1))
    assert joined_octets(whole, {2: said[134:], 1: said[:134]}) == said


def test_the_same_reference_from_two_phones_is_two_messages() -> None:
    part = PartNumber(7, 2, 1)
    assert whole_of(ADA, part) != whole_of("+12025550199", part)


def test_missing_parts_are_given_up_after_a_while() -> None:
    first = datetime(2027, 5, 12, 10, tzinfo=UTC)
    assert not is_given_up(first, first + WAIT - timedelta(seconds=1))
    assert is_given_up(first, first + WAIT)
