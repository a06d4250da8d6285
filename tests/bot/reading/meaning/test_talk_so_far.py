"""What was said before decides "same" and "none"; contradictions and corrections."""

from bot.reading.reader import read
from bot.reading.result import QuestionKind
from bot.reading.situation import LastFinding
from scheduling.entry_kinds import EntryKind
from scheduling.values import Feed
from tests.bot.reading.yards_for_reading import at, kinds


def test_same_repeats_the_finding_before_it() -> None:
    assert kinds("4a no eggs, 4b same") == {"4a": {EntryKind.NO_EGGS}, "4b": {EntryKind.NO_EGGS}}


def test_same_repeats_the_last_message_with_its_value() -> None:
    last = LastFinding(EntryKind.FED, Feed(syrup_litres=0.946), ())
    (finding,) = read("4c same", at(last_said=last)).findings
    assert (finding.kind, finding.value) == (EntryKind.FED, Feed(syrup_litres=0.946))


def test_same_as_nothing_is_asked_about() -> None:
    reading = read("4c same", at())
    assert reading.findings == ()
    assert [question.kind for question in reading.questions] == [QuestionKind.NO_FINDING]


def test_none_is_the_opposite_of_what_was_said_before() -> None:
    assert kinds("4a eggs, 4b none")["4b"] == {EntryKind.NO_EGGS}
    assert kinds("4a emerged, 4b none")["4b"] == {EntryKind.NOT_EMERGED}
    assert kinds("4a saw her, 4b none")["4b"] == {EntryKind.QUEEN_NOT_SEEN}


def test_none_without_anything_before_is_asked_about() -> None:
    assert kinds("4b none") == {}


def test_of_a_contradiction_nothing_counts_and_the_other_units_do() -> None:
    reading = read("4b eggs, 4b no eggs, 4c eggs", at())
    assert [str(finding.place.unit) for finding in reading.findings] == ["4c"]
    (question,) = reading.questions
    assert (question.kind, question.units) == (QuestionKind.CONTRADICTION, ("4b",))


def test_the_same_twice_is_one_finding() -> None:
    assert len(read("4b eggs, 4b eggs", at()).findings) == 1


def test_a_correction_is_known_by_its_first_or_last_word() -> None:
    for text in ("oops 5b eggs", "sorry, 5b eggs", "5b eggs my mistake"):
        assert read(text, at()).corrects
    assert not read("5b eggs", at()).corrects


def test_a_correction_between_two_reports_is_asked_about() -> None:
    reading = read("4b eggs sorry 5b eggs", at())
    assert reading.findings == ()
    assert not reading.corrects


def test_a_text_longer_than_anybody_types_is_sent_back() -> None:
    reading = read("4b eggs " * 500, at())
    assert reading.findings == ()
    assert [question.kind for question in reading.questions] == [QuestionKind.NOT_UNDERSTOOD]
