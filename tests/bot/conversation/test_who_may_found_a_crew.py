"""A stranger founds a crew where the owner of the machine lets them, and nowhere else."""

import pytest
from sqlalchemy import Engine, func, select

from bot.settings.founding import Founding
from bot.settings.settings import Settings
from scheduling.records.engine import reading, writing
from scheduling.records.founding_codes import make_founding_code, withdraw_founding_code
from scheduling.records.tables import CrewRow
from tests.bot.conversation.lines import MILO, Lines


def crews(lines: Lines) -> int:
    with reading(lines.engine) as session:
        return session.scalar(select(func.count(CrewRow.id))) or 0


def founding_code(lines: Lines) -> str:
    with writing(lines.engine) as session:
        return make_founding_code(session, lines.now).code


@pytest.fixture
def invited(engine: Engine) -> Lines:
    return Lines(engine, founding=Founding.INVITED)


@pytest.fixture
def closed(engine: Engine) -> Lines:
    return Lines(engine, founding=Founding.NOBODY)


def test_what_is_not_set_lets_in_who_is_invited() -> None:
    assert Settings().crews.founded_by is Founding.INVITED


@pytest.mark.parametrize("text", ["begin", "/begin", "new yard River", "Begin!"])
def test_a_stranger_without_a_code_founds_nothing_and_is_told_whom_to_ask(
    invited: Lines, text: str
) -> None:
    answer = invited.say("Nils", text)

    assert "Ask who runs this bot" in answer
    assert crews(invited) == 0
    assert invited.person("telegram", "Nils") is None


@pytest.mark.parametrize("words", ["begin {}", "/begin {}", "join {}", "/start {}"])
def test_a_code_of_the_machine_s_owner_founds_one_crew_once(invited: Lines, words: str) -> None:
    code = founding_code(invited)

    assert invited.say("Ada", words.format(code.lower())).startswith("Welcome Ada. First a yard")
    assert "not good" in invited.say("Nils", words.format(code))
    assert crews(invited) == 1


def test_a_number_with_a_code_founds_a_crew_by_text(invited: Lines) -> None:
    assert invited.text(MILO, f"begin {founding_code(invited)}").startswith("Welcome Keeper")
    assert crews(invited) == 1


def test_a_number_without_a_code_hears_one_answer_a_day(invited: Lines) -> None:
    assert "a code from who runs this" in invited.text(MILO, "begin")
    assert invited.text(MILO, "begin") == ""
    assert invited.text(MILO, "begin ABCD2345") == ""
    assert crews(invited) == 0


def test_a_code_that_is_withdrawn_or_two_weeks_old_founds_nothing(invited: Lines) -> None:
    gone, old = founding_code(invited), founding_code(invited)
    with writing(invited.engine) as session:
        assert withdraw_founding_code(session, gone.lower(), invited.now)
        assert not withdraw_founding_code(session, gone, invited.now)

    assert "not good" in invited.say("Nils", f"begin {gone}")
    assert "not good" in invited.later(days=14).say("Nils", f"begin {old}")
    assert crews(invited) == 0


@pytest.mark.parametrize("text", ["begin", "new yard River"])
def test_nobody_founds_a_crew_where_none_is_taken(closed: Lines, text: str) -> None:
    assert "No new crews are taken here" in closed.say("Nils", text)
    assert "No new crews" in closed.say("Nils", f"begin {founding_code(closed)}")
    assert "No new crews" in closed.say("Nils", f"join {founding_code(closed)}")
    assert crews(closed) == 0


def test_the_first_words_say_how_one_comes_in(invited: Lines, closed: Lines) -> None:
    assert "begin and the code" in invited.say("Nils", "hello")
    assert "begin" not in closed.say("Nils", "hello")
    assert "begin" not in closed.text(MILO, "hello")


def test_a_partner_s_code_lets_in_all_the_same(engine: Engine, closed: Lines) -> None:
    ada = Lines(engine)
    ada.say("Ada", "begin")
    code = ada.say("Ada", "invite").split("join ")[1][:6]

    assert closed.say("Milo", f"join {code}").startswith("Welcome Milo")


def test_who_is_in_a_crew_uses_no_code_up(invited: Lines) -> None:
    invited.say("Ada", f"begin {founding_code(invited)}")
    code = founding_code(invited)

    assert "in a crew already" in invited.say("Ada", f"begin {code}")
    assert "in a crew already" in invited.say("Ada", f"join {code}")
    assert crews(invited) == 1
    assert invited.say("Bea", f"begin {code}").startswith("Welcome Bea")
