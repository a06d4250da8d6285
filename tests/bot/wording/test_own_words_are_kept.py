"""A keeper's own words stay in the log as they were written, in whatever alphabet."""

import pytest

from bot.reading.reader import read
from scheduling.entry_kinds import EntryKind
from tests.bot.reading.yards_for_reading import at


@pytest.mark.parametrize(
    "words",
    ["Большой улей", "Łódź très bonne", "καλή βασίλισσα", "好蜂"],
)
def test_a_note_is_not_made_plain(words: str) -> None:
    (finding,) = read(f"4a note {words}", at()).findings
    assert (finding.kind, finding.note) == (EntryKind.NOTE, words)
