"""Codes are not guessed, open ones are seen and withdrawn, and a way that was added is noticed."""

from datetime import timedelta

import pytest
from sqlalchemy import Engine, func, select

from bot.delivery.message_tables import OutboxRow
from scheduling.records.engine import reading
from scheduling.records.wrong_codes import MANY, MOST_IN_ALL, MOST_OF_ONE
from tests.bot.conversation.lines import MILO, NILS, Lines, crew_of_ada
from tests.bot.conversation.test_a_further_channel_is_added import code_in


@pytest.fixture
def lines(engine: Engine) -> Lines:
    return crew_of_ada(Lines(engine))


def messages_out(lines: Lines) -> int:
    with reading(lines.engine) as session:
        return session.scalar(select(func.count(OutboxRow.id))) or 0


def guess(lines: Lines, who: str, times: int, first: int = 0) -> list[str]:
    return [lines.say(who, f"join 22{number:04d}") for number in range(first, first + times)]


def test_of_300_guesses_of_one_chat_five_are_looked_at_and_six_answered(lines: Lines) -> None:
    before = messages_out(lines)
    answers = guess(lines, "Nils", 300)

    assert MOST_OF_ONE == 5
    assert all("not good" in answer for answer in answers[:5])
    assert "in an hour" in answers[5]
    assert set(answers[6:]) == {""}
    assert messages_out(lines) - before == 6


def test_who_guessed_too_often_is_not_let_in_by_a_good_code_until_an_hour_is_over(
    lines: Lines,
) -> None:
    code = code_in(lines.say("Ada", "invite"))
    guess(lines, "Nils", 5)

    assert "in an hour" in lines.say("Nils", f"join {code}")
    assert lines.person("telegram", "Nils") is None
    assert lines.say("Milo", f"join {code}").startswith("Welcome Milo"), "others are let in"
    assert "not good" in lines.later(hours=1).say("Nils", f"join {code}")


def test_a_founding_code_is_not_guessed_more_often(engine: Engine) -> None:
    lines = Lines(engine)
    guess(lines, "Nils", 5)

    assert "in an hour" in lines.say("Nils", "join 22222222")


def test_many_chats_together_guess_only_so_often(lines: Lines) -> None:
    code = code_in(lines.say("Ada", "invite"))
    for number in range(MOST_IN_ALL):
        assert "not good" in lines.say(f"chat {number}", f"join 33{number:04d}")

    assert "in an hour" in lines.say("chat 99", "join 444444")
    assert "in an hour" in lines.say("Milo", f"join {code}")
    assert lines.later(hours=1).say("Milo", f"join {code}").startswith("Welcome Milo")


def test_owners_with_an_open_code_hear_of_many_once_a_day(lines: Lines) -> None:
    lines.say("Bea", "new yard Ridge")
    lines.say("Ada", "invite")
    for number in range(MANY + 5):
        lines.say(f"chat {number}", "join 333333")
    lines.later(minutes=1)

    assert sum("wrong codes were tried" in text for text in lines.chat.to("Ada")) == 1
    assert not any("wrong codes" in text for text in lines.chat.to("Bea"))
    lines.later(days=1)
    for number in range(MANY):
        lines.say(f"chat {number}", "join 333333")
    lines.later(minutes=1)
    assert sum("wrong codes were tried" in text for text in lines.chat.to("Ada")) == 2


def test_a_number_that_guesses_hears_the_one_answer_of_a_stranger(lines: Lines) -> None:
    answers = [lines.text(NILS, f"join 55{number:04d}") for number in range(10)]

    assert "not known here" in answers[0]
    assert set(answers[1:]) == {""}


def test_open_codes_are_listed_to_the_owner_and_to_each_their_own(lines: Lines) -> None:
    assert lines.say("Ada", "codes").startswith("No code is open.")
    first = code_in(lines.say("Ada", "invite"))
    lines.say("Milo", f"join {first}")
    partner = code_in(lines.say("Ada", "invite"))
    own = code_in(lines.later(minutes=1).say("Milo", "add mail"))

    assert lines.say("Ada", "codes") == (
        f"{partner} for a partner, to Wed 26 May\n{own} for a way of your own, to Wed 26 May\n"
        f"To end one: withdraw {partner}"
    )
    assert lines.say("Milo", "open codes?").startswith(f"{own} for a way of your own")
    assert partner not in lines.say("Milo", "codes")
    assert lines.later(days=14).say("Ada", "codes").startswith("No code is open.")


def test_a_code_that_is_withdrawn_lets_nobody_in(lines: Lines) -> None:
    code = code_in(lines.say("Ada", "invite"))

    assert lines.say("Ada", f"withdraw {code.lower()}") == (
        f"Withdrawn: {code} lets nobody in any more."
    )
    assert "no open code" in lines.say("Ada", f"withdraw {code}")
    assert "not good" in lines.say("Milo", f"join {code}")


def test_nobody_withdraws_what_is_another_s(lines: Lines) -> None:
    lines.say("Bea", "new yard Ridge")
    lines.say("Milo", f"join {code_in(lines.say('Ada', 'invite'))}")
    code = code_in(lines.say("Ada", "invite"))

    assert "no open code of yours" in lines.say("Bea", f"withdraw {code}")
    assert "no open code of yours" in lines.say("Milo", f"withdraw {code}")
    assert lines.say("Cleo", f"join {code}").startswith("Welcome Cleo")


def test_a_chat_that_is_added_is_told_on_the_chat_that_was_there(lines: Lines) -> None:
    lines.say("Mallory", f"join {code_in(lines.say('Ada', 'add chat'))}")
    lines.later(minutes=1)

    assert lines.chat.to("Ada")[-1] == (
        "Telegram was added as a way to reach you. Was it not you? Type: remove chat"
    )
    assert not any("was added" in text for text in lines.chat.to("Mallory"))


def test_a_number_that_is_added_is_told_on_the_chat_and_one_it_replaces_too(lines: Lines) -> None:
    lines.say("Ada", "number 202 555 0123")
    lines.text(MILO, "yes")
    lines.later(minutes=1)
    assert lines.chat.to("Ada")[-1].startswith("Text was added as a way to reach you.")

    lines.say("Ada", "number 202 555 0124")
    lines.text(NILS, "yes")
    lines.later(minutes=1)
    assert "another number of yours now" in lines.texts.to(MILO)[-1]
    assert lines.chat.to("Ada")[-1].startswith("Text was added as a way to reach you.")
    assert not any("another number" in text for text in lines.texts.to(NILS))


def test_who_stopped_their_messages_is_told_of_no_way(lines: Lines) -> None:
    code = code_in(lines.say("Ada", "add chat"))
    lines.say("Ada", "stop")
    before = len(lines.chat.to("Ada"))
    lines.say("Ada's other chat", f"join {code}")
    lines.later(minutes=1)

    assert len(lines.chat.to("Ada")) == before


def test_a_clock_that_was_set_back_counts_no_guess_of_the_future(lines: Lines) -> None:
    guess(lines, "Nils", 6)
    lines.now -= timedelta(days=1)

    assert "not good" in guess(lines, "Nils", 1)[0]
