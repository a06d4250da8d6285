"""A partner whose one number is in two crews: whose a text is, and that nothing leaks across."""

from datetime import timedelta

import pytest
from sqlalchemy import Engine, select

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.channels.sms.segments import is_gsm7, segments
from bot.delivery.message_tables import OutboxRow
from bot.wording.cautions import cautions
from scheduling.records.addresses import find_people
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from tests.bot.conversation.lines import DAY, MILO, NILS, Lines, crew_of_ada

DUE = DAY + timedelta(days=3)


@pytest.fixture
def two(engine: Engine) -> Lines:
    """Milo by text with Ada (River 1-2) and with Bea (Ridge 2-3): box 2 stands in both."""
    lines = crew_of_ada(Lines(engine))
    for text in ("new yard Ridge", "boxes 2-3 of 3", "zone America/Chicago"):
        lines.say("Bea", text)
    lines.say("Ada", "invite Milo 202 555 0123")
    lines.text(MILO, "yes")
    assert "once, by text" in lines.say("Bea", "invite Miles 202 555 0123")
    lines.text(MILO, "Yes")
    return lines


def log(lines: Lines, owner: str) -> list[str]:
    person = lines.person("telegram", owner)
    assert person is not None
    with reading(lines.engine) as session:
        entries = CrewRecords(session, person.crew_id).entries()
    return [f"{entry.person}: {entry.place} {entry.kind}" for entry in entries]


def test_the_question_of_a_second_crew_tells_a_member_how_to_leave_all_as_it_is(
    engine: Engine,
) -> None:
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "invite Milo 202 555 0123")
    lines.text(MILO, "yes")
    lines.say("Bea", "new yard Ridge")
    lines.say("Bea", "invite Miles 202 555 0123")

    question = lines.texts.to(MILO)[-1]
    assert question.startswith("Bea asks you into their bee yards, beside yours")
    assert "no answer changes nothing" in question
    assert segments(question) == 1
    welcome = lines.text(MILO, "yes")
    assert welcome.startswith("Welcome Miles, you share the yards of Bea. Yards: Ridge.")
    assert "You are in Ada's crew and Bea's crew: each message names its crew" in welcome
    assert is_gsm7(welcome)
    assert "Miles joined your crew." in lines.later(minutes=1).chat.to("Bea")
    assert not any("Miles" in text for text in lines.chat.to("Ada"))


def test_a_unit_that_stands_in_one_crew_only_says_whose_it_is(two: Lines) -> None:
    assert two.text(MILO, "1a eggs").startswith("Ada's crew: Noted: 1a eggs")
    assert two.text(MILO, "3a eggs").startswith("Bea's crew: Noted: 3a eggs")

    assert log(two, "Ada") == ["Milo: River 1a eggs"]
    assert log(two, "Bea") == ["Miles: Ridge 3a eggs"]


def test_a_yards_name_says_whose_it_is(two: Lines) -> None:
    assert two.text(MILO, "ridge 2a eggs").startswith("Bea's crew: Noted: 2a eggs")
    assert two.text(MILO, "river 2a eggs").startswith("Ada's crew: Noted: 2a eggs")


def test_what_fits_both_is_asked_about_and_the_name_alone_answers(two: Lines) -> None:
    two.at(DAY + timedelta(days=1), 15)
    question = two.text(MILO, "2a eggs")

    assert question == "For Ada's crew or Bea's crew? Nothing noted yet. Answer Ada or Bea."
    assert log(two, "Ada") == log(two, "Bea") == []
    assert two.text(MILO, "Bea").startswith("Bea's crew: Noted: 2a eggs")
    assert two.text(MILO, "2b eggs").startswith("Bea's crew: Noted"), "the talk stays there today"
    assert log(two, "Ada") == []


@pytest.mark.parametrize(
    "text",
    ["Ada: 2a eggs", "ada 2a eggs", "Ada's crew: 2a eggs", "crew ada 2a eggs", "for Ada, 2a eggs",
     "Ada\N{RIGHT SINGLE QUOTATION MARK}s crew 2a eggs", "Ada:\n2a eggs"],
)  # fmt: skip
def test_the_crews_name_before_a_text_says_whose_it_is(two: Lines, text: str) -> None:
    two.text(MILO, "ridge 2b eggs")

    assert two.text(MILO, text).startswith("Ada's crew: Noted: 2a eggs")


def test_the_crews_name_alone_turns_the_talk_there_for_the_day(two: Lines) -> None:
    assert two.text(MILO, "Bea") == (
        "Bea's crew: Yards: Ridge. What you send today is for Bea's crew."
    )
    assert two.text(MILO, "2a eggs").startswith("Bea's crew: Noted")
    two.at(DAY + timedelta(days=1), 15)
    assert "For Ada's crew or Bea's crew?" in two.text(MILO, "2b eggs")


def test_an_old_question_is_not_answered_later_by_chance(two: Lines) -> None:
    two.at(DAY + timedelta(days=1), 15)
    two.text(MILO, "2a eggs")
    two.text(MILO, "Bea: 2a no eggs")

    assert "Yards: River" in two.text(MILO, "Ada")
    assert log(two, "Ada") == []


def work_due(two: Lines) -> None:
    two.text(MILO, "Ada: 10 day cells in 1a-c")
    two.text(MILO, "Bea: 10 day cells in 2a-c")


def mornings(two: Lines) -> list[str]:
    return [text for text in two.texts.to(MILO) if f"\n{DUE:%a} {DUE.day} {DUE:%b}" in text]


def test_the_morning_comes_from_both_and_each_names_its_crew(two: Lines) -> None:
    work_due(two)
    two.at(DUE, 14).morning()

    first, second = mornings(two)
    assert first.startswith(f"Ada's crew:\n{DUE:%a} {DUE.day} {DUE:%b}, River:")
    assert second.startswith(f"Bea's crew:\n{DUE:%a} {DUE.day} {DUE:%b}, Ridge:")
    assert "Ridge" not in first
    assert "River" not in second
    assert two.chat.to("Ada")[-1].startswith(f"{DUE:%a} {DUE.day} {DUE:%b}"), "one crew, no name"
    # Both came just now, and box 2 stands in both.
    assert "For Ada's crew or Bea's crew?" in two.text(MILO, "2b eggs")


def test_the_crew_whose_morning_alone_came_is_spoken_to(two: Lines) -> None:
    two.text(MILO, "Bea: 10 day cells in 2a-c")
    two.at(DUE, 14).morning()

    assert two.text(MILO, "2a out").startswith("Bea's crew: Noted: 2a out")


def test_undo_takes_back_what_was_noted_last_in_whichever_crew(two: Lines) -> None:
    two.text(MILO, "river 1a eggs")
    two.later(minutes=1).text(MILO, "ridge 3a eggs")
    two.later(minutes=1)

    assert two.text(MILO, "undo").startswith("Bea's crew:")
    assert two.later(minutes=1).text(MILO, "undo").startswith("Ada's crew:")
    assert log(two, "Ada")[-1] == "Milo: River 1a strike"


def test_what_is_asked_of_a_crew_tells_nothing_of_the_other(two: Lines) -> None:
    work_due(two)
    two.at(DUE, 15)
    of_ada, of_bea = two.text(MILO, "Ada: due"), two.text(MILO, "Bea: due")

    assert "River" in of_ada
    assert "Ridge" not in of_ada
    assert "Ridge" in of_bea
    assert "River" not in of_bea
    assert "Miles" not in two.say("Ada", "crew")
    assert "Milo" not in two.say("Bea", "crew")
    assert two.text(MILO, "crew").split("\n") == [
        "Ada's crew: Ada (owner), morning 6:30",
        "Milo (keeper), morning 8:00",
        "Bea's crew: Bea (owner), morning 6:30",
        "Miles (keeper), morning 8:00",
    ]
    assert "ask Ada or Bea" in two.text(MILO, "help")


def test_stop_ends_both_with_one_confirmation_and_start_takes_both_up(two: Lines) -> None:
    work_due(two)
    assert two.text(MILO, "stop").startswith("Stopped")
    assert two.text(MILO, "STOP") == ""
    before = len(two.texts.shown)
    two.at(DUE, 14).morning()
    assert len(two.texts.shown) == before
    assert "may not text that number" in two.say("Cleo", "new yard Hill") + two.say(
        "Cleo", "invite Max 202 555 0123"
    )

    assert two.text(MILO, "start").startswith("Started.")
    two.at(DUE + timedelta(days=1), 14).morning()
    assert len([text for text in two.texts.to(MILO) if "s crew:\n" in text]) == 2


def test_stop_to_the_question_of_a_second_crew_ends_that_too(engine: Engine) -> None:
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "invite Milo 202 555 0123")
    lines.text(MILO, "yes")
    lines.say("Bea", "new yard Ridge")
    lines.say("Bea", "invite Miles 202 555 0123")

    assert lines.text(MILO, "stop").startswith("Stopped")
    assert "Miles said no to messages. I send nothing there." in lines.chat.to("Bea")
    assert lines.text(MILO, "start").startswith("Started"), "of the first crew alone"
    with reading(lines.engine) as session:
        assert len(find_people(session, "sms", MILO)) == 1


def test_an_opt_out_at_the_carrier_ends_both_and_both_owners_hear_of_it(two: Lines) -> None:
    two.texts.failing = lambda _: SendOutcome(SendResult.UNREACHABLE, error=SendError.OPTED_OUT)
    two.text(MILO, "Ada: due")
    two.texts.failing = lambda _: None
    two.later(minutes=1)

    for owner, name in (("Ada", "Milo"), ("Bea", "Miles")):
        assert any(name in text and "carrier" in text for text in two.chat.to(owner)), owner
    with reading(two.engine) as session:
        assert all(person.stopped for person in find_people(session, "sms", MILO))


def test_a_number_that_is_gone_is_marked_in_both_and_each_owner_hears_of_their_own(
    two: Lines,
) -> None:
    gone = SendOutcome(SendResult.UNREACHABLE, error=SendError.NO_SUCH_NUMBER)
    two.texts.failing = lambda _: gone
    two.text(MILO, "Ada: due")
    two.texts.failing = lambda _: None
    two.later(minutes=1)

    assert any("do not reach Milo" in text for text in two.chat.to("Ada"))
    assert any("do not reach Miles" in text for text in two.chat.to("Bea"))


def test_a_new_number_takes_the_place_of_the_old_in_both(two: Lines) -> None:
    assert "Answer YES there" in two.text(MILO, "my number is 202 555 0124")
    two.text(NILS, "yes")

    assert "not known here" in two.text(MILO, "due")
    assert two.text(NILS, "river 1a eggs").startswith("Ada's crew: Noted: 1a eggs")
    assert two.text(NILS, "ridge 3a eggs").startswith("Bea's crew: Noted: 3a eggs")


def test_hours_and_caution_hold_for_the_person_in_both(two: Lines) -> None:
    two.text(MILO, "morning 5:45")
    two.text(MILO, "quiet 21 to 5")

    with reading(two.engine) as session:
        people = find_people(session, "sms", MILO)
    assert len({(p.morning, p.quiet_from, p.quiet_until, p.morning_asked_at) for p in people}) == 1
    shown = [letter for letter in two.texts.shown if letter.text == cautions()]
    assert len(shown) == 1


def test_buttons_stand_for_their_own_crew(engine: Engine) -> None:
    lines = crew_of_ada(Lines(engine))
    lines.say("Bea", "new yard Ridge")
    lines.say("Bea", "boxes 1-2 of 3")
    lines.say("Bea", "zone America/Chicago")
    code = lines.say("Bea", "invite").split("join ")[1][:6]
    assert "You are in Ada's crew and Bea's crew" in lines.say("Ada", f"join {code}")
    lines.say("Ada", "Ada: 10 day cells in 1a-c")
    lines.say("Ada", "Bea: 10 day cells in 1a-c")
    lines.at(DUE, 14).morning()

    for crew in ("Ada", "Bea"):
        morning = next(
            letter
            for letter in lines.chat.shown
            if letter.address == "Ada" and letter.text.startswith(f"{crew}'s crew:\n")
        )
        assert morning.buttons
        button = morning.buttons[0][0]
        assert lines.say("Ada", button.text).startswith(f"{crew}'s crew: Noted: ")


def test_a_code_that_is_not_good_and_one_of_the_own_crew_change_nothing(two: Lines) -> None:
    own = two.say("Ada", "invite").split("join ")[1][:6]

    assert "not good" in two.text(MILO, "join ABC234")
    assert "in a crew already" in two.text(MILO, f"join {own}")
    with reading(two.engine) as session:
        assert len(find_people(session, "sms", MILO)) == 2


def test_news_of_a_crew_names_it_to_who_is_in_two(two: Lines) -> None:
    code = two.say("Bea", "invite").split("join ")[1][:6]
    two.say("Cleo", f"join {code}")
    two.later(minutes=1)

    assert two.texts.to(MILO)[-1] == "Bea's crew: Cleo joined your crew."
    assert not any("Cleo" in text for text in two.chat.to("Ada"))


def test_nothing_is_said_by_a_text_that_can_be_read_nowhere(two: Lines) -> None:
    assert "No unit 9z here" in two.text(MILO, "9z eggs")
    assert log(two, "Ada") == log(two, "Bea") == []
    with reading(two.engine) as session:
        owed = session.scalars(select(OutboxRow.state).where(OutboxRow.channel == "sms")).all()
    assert set(owed) == {"sent"}
