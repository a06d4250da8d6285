"""The alphabet, code by code, held against an independent codec and a published table."""

import gsm0338
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.channels.sms.segments import BASIC, ESCAPE, EXTENSION, decode, encode, is_gsm7, septets

CODEC = gsm0338.Codec()
GSM7_TEXTS = st.text(st.sampled_from(sorted(BASIC | EXTENSION)), max_size=300)

# "GSM 7 bit default alphabet and extension table" (of 3GPP TS 23.038), developers.sinch.com,
# docs/sms/smpp/message-encoding: the codes where the alphabet is not ASCII.
PUBLISHED = {
    "@": "00", "£": "01", "$": "02", "¥": "03", "è": "04", "é": "05", "ù": "06", "ì": "07",
    "ò": "08", "Ç": "09", "\n": "0a", "Ø": "0b", "ø": "0c", "\r": "0d", "Å": "0e", "å": "0f",
    "Δ": "10", "_": "11", "Φ": "12", "Γ": "13", "Λ": "14", "Ω": "15", "Π": "16", "Ψ": "17",
    "Σ": "18", "Θ": "19", "Ξ": "1a", "Æ": "1c", "æ": "1d", "ß": "1e", "É": "1f", "¤": "24",
    "¡": "40", "Ä": "5b", "Ö": "5c", "Ñ": "5d", "Ü": "5e", "§": "5f", "¿": "60",
    "ä": "7b", "ö": "7c", "ñ": "7d", "ü": "7e", "à": "7f",
    "\f": "1b0a", "^": "1b14", "{": "1b28", "}": "1b29", "\\": "1b2f", "[": "1b3c", "~": "1b3d",
    "]": "1b3e", "|": "1b40", "€": "1b65",
}  # fmt: skip


def test_the_codes_are_those_of_the_published_table() -> None:
    assert {letter: encode(letter).hex() for letter in PUBLISHED} == PUBLISHED


def test_every_other_letter_has_the_code_it_has_in_ascii() -> None:
    others = (BASIC | EXTENSION) - set(PUBLISHED)
    assert {letter: encode(letter) for letter in others} == {
        letter: letter.encode("ascii") for letter in others
    }
    assert len(BASIC) == 127
    assert len(EXTENSION) == 10


# gsm0338 1.1.0 (Python package index): a codec of GSM 03.38 for Python's own codec machinery.
@settings(max_examples=2000)
@given(GSM7_TEXTS)
def test_texts_are_written_and_read_as_by_gsm0338(text: str) -> None:
    written, _ = CODEC.encode(text)
    assert encode(text) == written
    assert septets(text) == len(written)
    assert decode(written) == text


def test_the_alphabet_has_no_letter_that_gsm0338_has_not_nor_lacks_one() -> None:
    ours = {chr(point) for point in range(0x3000) if is_gsm7(chr(point))}
    theirs = {chr(point) for point in range(0x3000) if _has(chr(point))}
    # The escape alone is written by that codec, though no phone shows it.
    assert ours == theirs - {"\x1b"}


def _has(letter: str) -> bool:
    try:
        CODEC.encode(letter)
    except UnicodeError:
        return False
    return True


@given(st.binary(max_size=300))
def test_any_codes_can_be_read(codes: bytes) -> None:
    assert is_gsm7(decode(codes))


# 3GPP TS 23.038, 6.2.1.1, notes to the tables (from memory).
@pytest.mark.parametrize(
    ("codes", "shown"),
    [
        (bytes([ESCAPE]), " "),
        (bytes([ESCAPE, ESCAPE, 0x41]), " A"),
        (bytes([ESCAPE, 0x41]), "A"),
        (bytes([0x80 | 0x41]), "A"),
    ],
)
def test_odd_codes_are_shown_as_the_standard_says(codes: bytes, shown: str) -> None:
    assert decode(codes) == shown


def test_a_text_outside_the_alphabet_is_not_written() -> None:
    with pytest.raises(ValueError, match="not in the GSM 7-bit alphabet"):
        septets("half a frame: ½")
