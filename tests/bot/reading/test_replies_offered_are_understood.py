"""Every reply that our own messages offer or that our answers use must be read back."""

import pytest

from bot.reading.reader import read
from bot.wording.check_names import CHECK_WORDS
from bot.wording.findings import finding_words
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind
from tests.bot.reading.yards_for_reading import at

OFFERED = [
    (check, reply)
    for check, words in CHECK_WORDS.items()
    for replies in (words.replies, *words.replies_when.values())
    for reply in replies
]


@pytest.mark.parametrize(("check", "reply"), OFFERED)
@pytest.mark.parametrize("names", ["4b", "River 4b", "4a-b", "4a 4b"])
def test_a_reply_offered_for_a_check_is_read(check: CheckKind, reply: str, names: str) -> None:
    yard = "River" if names.startswith("River") else "Home"
    situation = at(waiting={"4a": check, "4b": check}, waiting_at=yard)
    reading = read(reply.format(names), situation)
    assert reading.questions == ()
    assert {str(finding.place.unit) for finding in reading.findings} >= {"4b"}


UNIT_WORDS = [
    kind
    for kind in EntryKind
    if kind
    not in {EntryKind.GRAFTED, EntryKind.STORES, EntryKind.WEATHER_SEEN, EntryKind.FORAGE_SEEN,
            EntryKind.PUT_OFF, EntryKind.YARD_TAKEN, EntryKind.NOTE, EntryKind.MOVED,
            EntryKind.STRIKE}
]  # fmt: skip


@pytest.mark.parametrize("kind", UNIT_WORDS)
def test_the_words_of_our_own_answers_are_read_back(kind: EntryKind) -> None:
    waits = CheckKind.LAYING if kind is EntryKind.DEAD else CheckKind.EMERGENCE
    situation = at(waiting={"4b": waits})
    read_kinds = {f.kind for f in read(f"4b {finding_words(kind)}", situation).findings}
    assert read_kinds == {kind}
