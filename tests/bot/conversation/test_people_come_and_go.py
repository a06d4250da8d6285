"""Owners change who is in the crew and in which role; whoever is out gets and reads nothing."""

from datetime import timedelta

import pytest
from sqlalchemy import Engine, select

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.channels.sms.segments import is_gsm7, segments
from bot.delivery.message_tables import ConversationStateRow, OutboxRow
from scheduling.records.addresses import find_people
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from scheduling.records.invites import crew_of_code
from tests.bot.conversation.crew_of_two import ada_and_milo, code_of, milo_by_text, only_to
from tests.bot.conversation.lines import DAY, MILO, NILS, Lines

DUE = DAY + timedelta(days=3)
STRANGE = "Type begin"


@pytest.fixture
def crew(engine: Engine) -> Lines:
    return ada_and_milo(Lines(engine))


def told(lines: Lines, who: str, since: int) -> list[str]:
    return lines.chat.to(who)[since:]


def log(lines: Lines) -> list[str]:
    ada = lines.person("telegram", "Ada")
    assert ada is not None
    with reading(lines.engine) as session:
        entries = CrewRecords(session, ada.crew_id).entries()
    return [f"{entry.person}: {entry.place} {entry.kind}" for entry in entries]


def test_removing_is_asked_about_once_with_a_button(crew: Lines) -> None:
    asked = crew.say("Ada", "remove milo")

    assert asked == (
        "Take Milo out of your crew? From then on Milo gets and reads nothing of it. "
        "To do it, type: remove Milo yes"
    )
    assert segments(asked) == 1
    assert [b.text for row in crew.chat.shown[-1].buttons for b in row] == ["remove Milo yes"]
    assert "River" in crew.say("Milo", "yards"), "nothing is done yet"
    assert crew.say("Ada", "remove Milo yes") == (
        "Milo is out of your crew. What Milo noted stays."
    )
    assert crew.say("Ada", "crew") == "Ada (owner), morning 6:30"


def test_whoever_is_out_reads_nothing_and_notes_nothing_from_then_on(crew: Lines) -> None:
    crew.say("Milo", "1a eggs")
    before = len(crew.chat.to("Milo"))
    crew.say("Ada", "remove Milo yes")

    assert told(crew, "Milo", before) == [], "whoever is out is told nothing, not even that"
    for text in ("due", "1b eggs", "undo", "crew", "yards", "1a", "more"):
        assert STRANGE in crew.say("Milo", text), text
    assert log(crew)[-1] == "Milo: River 1a eggs"


def test_whoever_is_out_gets_no_morning(crew: Lines) -> None:
    crew.say("Ada", "remove Milo yes")
    before = len(crew.chat.to("Milo"))
    crew.at(DUE, 15).morning()

    assert crew.chat.to("Ada")[-1].startswith(f"{DUE:%a} {DUE.day}")
    assert told(crew, "Milo", before) == []


def test_what_waits_in_the_outbox_for_whoever_is_out_never_goes(crew: Lines) -> None:
    crew.chat.failing = only_to("Milo", SendResult.LATER)
    crew.at(DUE, 15).morning()
    crew.say("Milo", "due")
    crew.say("Ada", "remove Milo yes")
    crew.chat.failing = lambda _: None
    before = len(crew.chat.to("Milo"))
    crew.later(minutes=30).later(hours=2)

    assert told(crew, "Milo", before) == []


def test_what_was_on_its_way_when_somebody_went_out_comes_no_second_time(crew: Lines) -> None:
    def removed_meanwhile(outgoing: OutgoingMessage) -> SendOutcome | None:
        if outgoing.address != "Milo":
            return None
        crew.chat.failing = lambda _: None
        crew.hand_in("Ada", "remove Milo yes")
        return SendOutcome(SendResult.UNKNOWN, error=SendError.NO_ANSWER)

    crew.chat.failing = removed_meanwhile
    crew.at(DUE, 15).morning()
    before = len(crew.chat.to("Milo"))
    crew.later(minutes=1).later(minutes=30)

    assert told(crew, "Milo", before) == []


def test_the_talk_of_whoever_is_out_is_gone(crew: Lines) -> None:
    milo = crew.person("telegram", "Milo")
    assert milo is not None
    crew.say("Milo", "1a eggs")
    crew.say("Ada", "remove Milo yes")

    with reading(crew.engine) as session:
        assert session.get(ConversationStateRow, milo.id) is None


def test_a_code_that_was_made_before_leads_nobody_back_in(crew: Lines) -> None:
    own = code_of(crew, "Milo", "add chat")
    crew.say("Ada", "Milo owner")
    partners = code_of(crew, "Milo")
    crew.say("Ada", "remove Milo yes")

    for code in (own, partners):
        assert "not good" in crew.say("Milo", f"join {code}")
    with reading(crew.engine) as session:
        assert crew_of_code(session, own) is None


def test_a_number_that_was_asked_by_whoever_is_out_joins_nothing(crew: Lines) -> None:
    crew.say("Milo", "number 202 555 0123")
    crew.say("Ada", "Milo owner")
    crew.say("Milo", "invite Nils 202 555 0124")
    crew.say("Ada", "remove Milo yes")

    for number in (MILO, NILS):
        assert "not known here" in crew.text(number, "yes")
        with reading(crew.engine) as session:
            assert find_people(session, "sms", number) == ()


def test_whoever_comes_back_by_a_code_is_somebody_new(crew: Lines) -> None:
    crew.say("Milo", "1a eggs")
    crew.say("Ada", "remove Milo yes")

    assert "Welcome Milo 2" in crew.say("Milo", f"join {code_of(crew, 'Ada')}")
    assert "Nothing of yours to undo" in crew.say("Milo", "undo")


def test_nobody_of_that_name_is_said_with_who_there_is(crew: Lines) -> None:
    for text in ("remove Zed", "remove Zed yes", "Zed watcher", "hand over to Zed"):
        assert crew.say("Ada", text) == "Nobody here is called Zed. In your crew: Ada, Milo."
    assert "To go out of your crew yourself: leave" in crew.say("Ada", "remove Ada")


def test_a_name_with_accents_may_be_typed_as_a_text_shows_it(crew: Lines) -> None:
    name = "Zo\N{LATIN SMALL LETTER E WITH DIAERESIS}"
    crew.say(name, f"join {code_of(crew, 'Ada')}")

    assert crew.say("Ada", "zoe watcher").startswith("Zoe is a watcher now")
    assert crew.say("Ada", "remove Zoe yes").startswith("Zoe is out of your crew")
    assert STRANGE in crew.say(name, "due")


def test_a_role_is_given_and_told_and_holds_at_once(crew: Lines) -> None:
    assert crew.say("Ada", "milo watcher") == (
        "Milo is a watcher now: reads and gets mornings, but notes nothing."
    )
    assert crew.later(minutes=1).chat.to("Milo")[-1] == (
        "Ada made you a watcher of the crew. You read and get mornings, but note nothing."
    )
    assert "You may look but not note" in crew.say("Milo", "1a eggs")
    assert "See if out 1" in crew.at(DUE, 15).say("Milo", "due")
    crew.say("Ada", "make Milo an owner")
    assert "Yard Ridge made" in crew.say("Milo", "new yard Ridge")
    assert crew.say("Ada", "Milo is a keeper").startswith("Milo is a keeper now")
    assert "Only Ada can do that" in crew.say("Milo", "new yard Hill")


def test_several_owners_are_named_and_each_may_do_all(crew: Lines) -> None:
    crew.say("Ada", "Milo owner")
    crew.say("Wren", f"join {code_of(crew, 'Milo')}")

    assert crew.say("Wren", "invite") == "Only Ada or Milo can do that. Nothing changed."
    assert "Ada is a keeper now" in crew.say("Milo", "Ada keeper")
    assert crew.say("Ada", "invite") == "Only Milo can do that. Nothing changed."


def test_a_crew_is_never_without_an_owner_who_is_reached(crew: Lines) -> None:
    crew.say("Ada", "10 day cell in 2a")
    for text in ("Ada keeper", "Ada watcher", "leave", "leave yes"):
        assert crew.say("Ada", text).startswith("Then your crew has no owner."), text
    assert "only way to me" in crew.say("Ada", "remove chat")
    assert "Ada (owner)" in crew.say("Ada", "crew")


def test_an_owner_made_keeper_invites_nobody_by_an_earlier_code(crew: Lines) -> None:
    crew.say("Ada", "Milo owner")
    code = code_of(crew, "Milo")
    own = code_of(crew, "Milo", "add chat")
    crew.say("Ada", "Milo keeper")

    assert "not good" in crew.say("Wren", f"join {code}")
    assert "second way" in crew.say("Milo's tablet", f"join {own}")


def test_the_crew_is_handed_over_after_one_question(crew: Lines) -> None:
    asked = crew.say("Ada", "hand the crew over to Milo")

    assert asked.endswith("To do it, type: hand over to Milo yes")
    assert crew.say("Ada", "hand over to Milo yes") == (
        "Milo owns the crew now, and you are a keeper."
    )
    assert crew.say("Milo", "crew").split("\n") == [
        "Ada (keeper), morning 6:30",
        "Milo (owner), morning 6:30",
    ]


def test_whoever_leaves_is_asked_first_and_the_owners_hear_of_it(crew: Lines) -> None:
    assert crew.say("Milo", "leave").endswith("To do it, type: leave yes")
    crew.say("Ada", "Milo owner")
    left = crew.say("Milo", "leave yes")

    assert left == ("You left Ada's crew. What you noted stays there. Back in: a new code from it.")
    assert crew.later(minutes=1).chat.to("Ada")[-1] == "Milo left your crew."
    assert STRANGE in crew.say("Milo", "due")


def test_the_last_owner_may_leave_once_there_is_another(crew: Lines) -> None:
    crew.say("Ada", "Milo owner")

    assert crew.say("Ada", "leave yes").startswith("You left Ada's crew.")
    assert STRANGE in crew.say("Ada", "yards")
    assert crew.say("Milo", "crew") == "Milo (owner), morning 6:30"


@pytest.fixture
def both(crew: Lines) -> Lines:
    return milo_by_text(crew)


def test_every_answer_fits_one_text(both: Lines) -> None:
    said = [
        both.say("Ada", text)
        for text in ("remove Milo", "Milo owner", "Milo watcher", "Zed owner", "leave")
    ]
    said += [both.text(MILO, text) for text in ("leave", "remove number 202 555 0199")]
    assert all(segments(text) == 1 and is_gsm7(text) for text in said), said


def test_nothing_is_left_open_for_whoever_is_out(both: Lines) -> None:
    milo = both.person("telegram", "Milo")
    assert milo is not None
    both.chat.failing = only_to("Milo", SendResult.LATER)
    both.say("Milo", "due")
    both.say("Ada", "remove Milo yes")

    with reading(both.engine) as session:
        states = select(OutboxRow.state).where(OutboxRow.person_id == milo.id)
        assert not {"planned", "claimed"} & set(session.scalars(states))


def test_whoever_stopped_and_is_out_is_asked_by_nobody(both: Lines) -> None:
    both.text(MILO, "stop")
    both.say("Ada", "remove Milo yes")

    assert "may not text that number" in both.say("Ada", "invite Milo 202 555 0123")


def test_a_bare_yes_answers_what_is_asked_once(crew: Lines) -> None:
    crew.say("Ada", "Milo owner")
    crew.say("Ada", "hand the crew over to Milo")
    assert crew.say("Ada", "yes") == "Milo owns the crew now, and you are a keeper."
    crew.say("Milo", "remove Ada")
    assert crew.say("Milo", "no").startswith("Left.")
    assert "Ada" in crew.say("Milo", "crew")
    crew.say("Milo", "remove Ada")
    assert crew.say("Milo", "yes").startswith("Ada is out of your crew.")
    assert STRANGE in crew.say("Ada", "due")


def test_a_yes_after_something_else_lets_nobody_out(crew: Lines) -> None:
    crew.say("Milo", "leave")
    crew.say("Milo", "yards")
    crew.say("Milo", "yes")
    assert "River" in crew.say("Milo", "yards")
    crew.say("Milo", "leave")
    assert crew.say("Milo", "yes").startswith("You left Ada's crew.")
