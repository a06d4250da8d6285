"""Texts that ask for something rather than report."""

from dataclasses import replace
from datetime import date, time, timedelta
from zoneinfo import available_timezones

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.reading.reader import read
from bot.reading.result import Command, CommandName, QuestionKind
from scheduling.places import UnitName
from tests.bot.reading.yards_for_reading import at

LEAVING = ["CANCEL", "END", "QUIT", "REMOVE"]
STOPPING = ["STOP", "STOPALL", "UNSUBSCRIBE", "REVOKE", "OPTOUT"]


def command(text: str) -> Command | None:
    return read(text, at()).command


def texted(text: str) -> Command | None:
    """What is read of a text over a carrier that asks for consent."""
    return read(text, replace(at(), by_consent=True)).command


@pytest.mark.parametrize("word", STOPPING)
def test_a_word_of_refusal_alone_stops_in_any_case(word: str) -> None:
    for text in (word, word.lower(), word.title(), f" {word}. "):
        assert command(text) == texted(text) == Command(CommandName.STOP)


@pytest.mark.parametrize("word", LEAVING)
def test_a_word_that_leaves_a_question_stops_by_text_alone(word: str) -> None:
    for text in (word, word.lower(), word.title(), f" {word}. "):
        assert command(text) == Command(CommandName.CANCEL)
        assert texted(text) == Command(CommandName.STOP)


def test_yes_and_no_answer_a_question_where_one_waits() -> None:
    asked = replace(at(), asked_yes_or_no=True)
    for text in ("yes", "Yes!", "yep"):
        assert read(text, asked).command == Command(CommandName.YES)
        assert read(text, replace(asked, by_consent=True)).command == Command(CommandName.YES)
    for text in ("no", "No thanks", "cancel"):
        assert read(text, asked).command == Command(CommandName.CANCEL)
    assert command("yes") is None
    assert command("no") is None


@pytest.mark.parametrize("word", [*STOPPING, *LEAVING])
def test_a_word_of_refusal_with_more_words_does_not_stop(word: str) -> None:
    reading = read(f"{word.lower()} of 4b", at())
    assert reading.command is None
    assert reading.findings == ()


def test_start_begin_and_join_by_a_link() -> None:
    assert command("START") == texted("yes") == Command(CommandName.START)
    assert command("/start") == Command(CommandName.START)
    assert command("/start abcd23") == command("join ABCD23")


def test_a_unit_alone_asks_for_its_story() -> None:
    story = Command(CommandName.HISTORY, "Home", UnitName(4, "b"))
    for text in ("4b", "4B?", "how is 4b", "what's up with 4b", "4 middle"):
        assert command(text) == story
    assert command("river 4b") == Command(CommandName.HISTORY, "River", UnitName(4, "b"))


def test_a_unit_alone_that_does_not_exist_is_asked_about() -> None:
    reading = read("4d", at())
    assert reading.command is None
    assert reading.questions[0].kind is QuestionKind.NO_SUCH_UNIT


@pytest.mark.parametrize(
    ("text", "boxes", "compartments"),
    [("boxes 1-3 of 3", (1, 2, 3), 3), ("box 7 single", (7,), 1), ("boxes 1, 2 and 5 of 2",
     (1, 2, 5), 2), ("boxes 1-2, 4 each", (1, 2), 4), ("boxes 9 to 10 with two", (9, 10), 2)],
)  # fmt: skip
def test_boxes_with_their_compartments(
    text: str, boxes: tuple[int, ...], compartments: int
) -> None:
    assert command(text) == Command(CommandName.BOXES, boxes=boxes, compartments=compartments)


@pytest.mark.parametrize("text", ["boxes 1-3 of 9", "boxes 1-9999 of 3", "boxes 5-1 of 2"])
def test_boxes_that_cannot_be_are_asked_about(text: str) -> None:
    reading = read(text, at())
    assert reading.command is None
    assert reading.questions[0].kind is QuestionKind.BAD_NUMBER


@given(st.times())
def test_every_minute_of_the_day_can_be_a_morning_time(wanted: time) -> None:
    wanted = wanted.replace(second=0, microsecond=0, tzinfo=None)
    half = wanted.strftime("%I:%M %p")
    assert command(f"morning {wanted:%H:%M}") == Command(CommandName.MORNING, at=wanted)
    assert command(f"morning {half}") == Command(CommandName.MORNING, at=wanted)


@pytest.mark.parametrize("name", sorted(available_timezones())[::40])
def test_every_zone_of_the_time_zone_database_is_known_in_any_case(name: str) -> None:
    assert command(f"zone {name.lower()}") == Command(CommandName.ZONE, word=name)


def test_other_settings() -> None:
    place = Command(CommandName.LOCATION, latitude=41.3, longitude=-92.6)
    assert command("location 41.3, -92.6") == command("location 41.3N 92.6W") == place
    assert command("feeder 2 quarts") == Command(CommandName.FEEDER, litres=1.893)
    plan = Command(CommandName.PLAN, count=12, on=date(2027, 6, 10))
    assert command("plan 12 queens by 10 june") == command("twelve laying queens by June 10")
    assert command("twelve laying queens by 10 June") == plan


@pytest.mark.parametrize(
    "text",
    [
        "graft for 20 jun",
        "queens by 20 june",
        "queens wanted by june 20",
        "when to graft for 20 jun?",
        "when do I graft for queens on 20 jun",
        "what to graft now to have queens by june 20",
        "want queens by 20 jun",
        "plan for 20 june",
    ],
)
def test_a_plan_without_a_number_is_still_a_plan(text: str) -> None:
    assert command(text) == Command(CommandName.PLAN, on=date(2027, 6, 20))


@pytest.mark.parametrize("text", ["grafted 40 on 8 may", "grafted for 12 may", "4b queen on fri"])
def test_what_was_done_is_no_plan(text: str) -> None:
    assert command(text) is None


def test_ready_asks_for_queens_and_failing_for_units() -> None:
    assert command("ready") == command("what is ready?") == Command(CommandName.QUEENS)
    assert command("ready at river") == Command(CommandName.QUEENS, yard="River")
    assert command("failing units") == Command(CommandName.FAILING)


@given(st.dates(date(2026, 1, 1), date(2031, 12, 31)), st.integers(1, 365))
def test_queens_can_be_planned_a_year_ahead_in_winter_too(today: date, ahead: int) -> None:
    wanted = today + timedelta(days=ahead)
    said = read(f"plan 12 queens by {wanted:%d %B}", at(today=today))
    assert said.command == Command(CommandName.PLAN, count=12, on=wanted)


@pytest.mark.parametrize("text", ["morning 25:00", "feeder 0", "location 99, 0"])
def test_a_setting_that_cannot_be_is_asked_about(text: str) -> None:
    assert read(text, at()).questions[0].kind is QuestionKind.BAD_NUMBER


def test_views_may_name_a_yard() -> None:
    assert command("due") == Command(CommandName.DUE)
    assert command("due river") == command("river due") == Command(CommandName.DUE, yard="River")
    assert command("yard river") == Command(CommandName.YARD, yard="River", word="River")
    assert command("new yard Hilltop") == Command(CommandName.YARD, word="Hilltop")


def test_a_command_word_in_a_report_stays_a_report() -> None:
    assert command("4b eggs, more tomorrow") is None
    assert read("note more boxes due", at()).findings[0].note == "more boxes due"


def test_what_is_done_with_codes() -> None:
    assert command("join abcd23") == Command(CommandName.JOIN, word="ABCD23")
    assert command("begin") == Command(CommandName.BEGIN)
    assert command("begin abcd2345") == Command(CommandName.BEGIN, word="ABCD2345")
    assert command("codes") == command("my open codes?") == Command(CommandName.CODES)
    withdrawn = Command(CommandName.WITHDRAW, word="ABCD23")
    assert command("withdraw abcd23") == command("revoke the code ABCD23") == withdrawn


@pytest.mark.parametrize("text", ["revoke", "Revoke."])
def test_a_word_of_refusal_alone_withdraws_nothing(text: str) -> None:
    assert command(text) == Command(CommandName.STOP)
