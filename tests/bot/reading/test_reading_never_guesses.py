"""Whatever is typed: no crash, no unit that does not exist, no meaning from a slip."""

import string
from collections.abc import Iterator

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from bot.command.as_json import reading_as_json
from bot.reading.lexicon.colony_phrases import VALUED
from bot.reading.lexicon.phrase_table import FINDINGS, all_phrases, phrases, vocabulary
from bot.reading.lexicon.sense import Sense
from bot.reading.meaning.negation import DENIED
from bot.reading.reader import read
from bot.reading.result import Finding
from scheduling.entries import check_value
from scheduling.entry_kinds import EntryKind
from tests.bot.reading.yards_for_reading import HOME, RIVER, at, existing

WORDS = sorted(vocabulary())
UNITS = [str(unit) for unit in (*HOME.units, *RIVER.units)]
pieces = st.one_of(
    st.sampled_from(WORDS),
    st.sampled_from([*UNITS, "4a-c", "4d", "99", "all of 4", "4 left", "River", "home"]),
    st.sampled_from([",", ".", "\n", "and", "but", "except", "not", "no", "1/2", "2 quarts"]),
)


@given(st.text(max_size=120))
def test_any_text_is_read_without_a_crash(text: str) -> None:
    reading_as_json(read(text, at()))


@given(st.lists(pieces, max_size=12).map(" ".join))
def test_only_units_that_exist_and_values_that_fit_are_recorded(text: str) -> None:
    reading = read(text, at())
    for finding in reading.findings:
        check_value(finding.kind, finding.value)
        unit = finding.place.unit
        assert unit is None or (finding.place.yard, unit) in existing((HOME, RIVER))


@given(st.lists(pieces, min_size=1, max_size=8).map(" ".join))
def test_every_text_is_answered_in_some_way(text: str) -> None:
    reading = read(text, at())
    assert reading.findings or reading.questions or reading.command or reading.yard


@given(st.lists(pieces, max_size=8).map(" ".join))
def test_a_yard_not_known_yet_crashes_nothing(text: str) -> None:
    reading_as_json(read(text, at(yards=(), current=None)))


def of_units() -> Iterator[tuple[str, EntryKind]]:
    of_yards = {
        EntryKind.YARD_TAKEN,
        EntryKind.WEATHER_SEEN,
        EntryKind.FORAGE_SEEN,
        EntryKind.PUT_OFF,
    }
    for kind, said in FINDINGS.items():
        yield from ((phrase, kind) for phrase in said if kind not in of_yards)
    for kind, _, said in VALUED:
        yield from ((phrase, kind) for phrase in said if kind not in of_yards)


@pytest.mark.parametrize(("phrase", "kind"), list(of_units()))
def test_a_phrase_means_the_same_before_and_after_its_unit(phrase: str, kind: EntryKind) -> None:
    before, after = read(f"4b {phrase}", at()), read(f"{phrase} 4b", at())
    assert {finding.kind for finding in before.findings} == {kind}
    assert after.findings == before.findings


def test_no_phrase_of_the_lexicon_has_two_meanings() -> None:
    meant: dict[str, set[Sense]] = {}
    for phrase, sense in all_phrases():
        meant.setdefault(phrase, set()).add(sense)
    assert {phrase: senses for phrase, senses in meant.items() if len(senses) > 1} == {}


def slips_of(word: str, at_letter: int, letter: str) -> Iterator[str]:
    yield word[:at_letter] + word[at_letter + 1 :]
    yield word[:at_letter] + letter + word[at_letter:]
    yield word[:at_letter] + letter + word[at_letter + 1 :]
    if at_letter + 1 < len(word):
        yield word[:at_letter] + word[at_letter + 1] + word[at_letter] + word[at_letter + 2 :]


single_words = [phrase for phrase, _ in of_units() if " " not in phrase]


@given(st.sampled_from(single_words), st.data())
def test_a_slip_of_one_letter_never_gives_another_meaning(word: str, data: st.DataObject) -> None:
    at_letter = data.draw(st.integers(0, len(word) - 1))
    letter = data.draw(st.sampled_from(string.ascii_lowercase))
    meant = recorded(f"4b {word}")
    for slip in slips_of(word, at_letter, letter):
        assume(slip not in phrases())
        assert recorded(f"4b {slip}") in (meant, set())


def recorded(text: str) -> set[Finding]:
    return set(read(text, at()).findings)


DENIALS = ("no", "not", "no sign of", "didn't see", "did not find", "never saw", "without")


@pytest.mark.parametrize("denial", DENIALS)
@pytest.mark.parametrize("phrase", [p for kind in DENIED for p in FINDINGS[kind]])
def test_a_denied_finding_is_never_recorded_as_made(denial: str, phrase: str) -> None:
    kind = next(kind for kind in DENIED if phrase in FINDINGS[kind])
    read_kinds = {finding.kind for finding in read(f"4b {denial} {phrase}", at()).findings}
    assert kind not in read_kinds


def test_in_a_text_that_arrived_garbled_no_slip_is_put_right() -> None:
    assert read("RIn", at()).findings != ()
    assert read("RIn!b\ufffd\ufffdn\ufffd,", at()).findings == ()


@given(
    st.text(
        st.characters(categories=["Nd", "No", "Nl"]) | st.sampled_from("abc 4-/.:"), max_size=30
    )
)
def test_numbers_of_any_script_are_read_without_a_crash(text: str) -> None:
    for said in (text, f"{text} eggs", f"4a eggs {text} days ago", f"boxes {text} of {text}"):
        reading_as_json(read(said, at()))
