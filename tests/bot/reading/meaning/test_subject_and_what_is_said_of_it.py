"""A subject and a word that alone may mean several things make one finding."""

import pytest

from bot.reading.reader import read
from scheduling.entry_kinds import EntryKind
from tests.bot.reading.yards_for_reading import at


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("4b cell is sealed", EntryKind.NOT_EMERGED),
        ("4b brood is sealed", EntryKind.SEALED_BROOD),
        ("4b cell is out", EntryKind.EMERGED),
        ("4b cell not out", EntryKind.NOT_EMERGED),
        ("4b cell dead", EntryKind.CELL_FAILED),
        ("4b queen is dead", EntryKind.QUEEN_DEAD),
        ("4b the virgin is dead", EntryKind.QUEEN_DEAD),
        ("4b bees are dead", EntryKind.DEAD),
        ("4b took the queen", EntryKind.QUEEN_TAKEN),
    ],
)
def test_what_is_said_of_a_subject_is_a_finding(said: str, kind: EntryKind) -> None:
    reading = read(said, at())
    assert [finding.kind for finding in reading.findings] == [kind]
    assert reading.questions == ()
