"""Texts lose what cannot be stored or does harm unseen, and nothing else."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.plain_text import seen, storable

ANY_TEXT = st.text(st.characters() | st.characters(categories=["Cs", "Cc", "Cf"]))


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("4a eggs, 5b no eggs", "4a eggs, 5b no eggs"),
        ("River\tside\n4a eggs", "River\tside\n4a eggs"),
        ("4a eggs\r\n4b none\rend", "4a eggs\n4b none\nend"),
        ("Zoë, 蜂, пчела", "Zoë, 蜂, пчела"),
        ("Bo\udfff", "Bo\ufffd"),
        ("\x1b[31mred\x07\x00", "[31mred"),
        ("4a\x0beggs", "4a eggs"),
        ("\u200e1b eggs\u202e", "1b eggs"),
        ("\u06cc\u200c\u062e", "\u06cc\u200c\u062e"),
    ],
)
def test_what_is_stored_of_a_text(text: str, kept: str) -> None:
    assert storable(text) == kept


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("  Mill   Pond ", "Mill Pond"),
        ("Mill\nPond", "Mill Pond"),
        ("Ri\u200bver\u202e", "River"),
        ("\x1b[2JRiver", "[2JRiver"),
        ("River\u3164\u2800\ufe0f", "River"),
        ("\u202e\u200b", ""),
    ],
)
def test_what_is_seen_of_a_name(name: str, shown: str) -> None:
    assert seen(name) == shown


@given(ANY_TEXT)
def test_every_text_can_be_stored_and_starts_no_escape(text: str) -> None:
    kept = storable(text)

    kept.encode()
    assert storable(kept) == kept
    assert not [c for c in kept if unicodedata.category(c) in ("Cc", "Cs") and c not in "\n\t"]


@given(ANY_TEXT)
def test_a_name_is_in_one_line_and_stays_as_it_is_shown(name: str) -> None:
    shown = seen(name)

    assert seen(shown) == shown
    assert not {"\n", "\t", "\u200b", "\u202e"} & set(shown)
    assert shown == shown.strip()
