"""Only what may be a mobile phone of the lands that are set is texted, and only so many a day."""

import pytest
from sqlalchemy import Engine

from bot.channels.sms.phone_number import NumberFault, Texting
from bot.settings.settings import Settings
from scheduling.records.numbers import STRANGERS_A_DAY
from tests.bot.conversation.lines import Lines, crew_of_ada

# Numbers of the ranges for fiction where a land has some; the others are made up of a range's
# first digits, and nobody's is meant.
PREMIUM = ("+1 900 555 0100", "+44 9011 234567")
SATELLITE = "+882 16 123456"
SHARED_COST = "+44 8451 234567"
TOLL_FREE = "+1 800 555 0100"


@pytest.fixture
def lines(engine: Engine) -> Lines:
    return crew_of_ada(Lines(engine, texting=Texting(running=True, region="US")))


def sent(lines: Lines) -> int:
    return len(lines.later(minutes=1).texts.shown)


@pytest.mark.parametrize("number", [*PREMIUM, SATELLITE, SHARED_COST, TOLL_FREE])
@pytest.mark.parametrize("words", ["invite Mum {}", "number {}"])
def test_a_number_that_costs_or_is_no_phone_is_never_texted(
    lines: Lines, number: str, words: str
) -> None:
    answer = lines.say("Ada", words.format(number))

    assert "mobile phone" in answer or "cannot read" in answer
    assert sent(lines) == 0


@pytest.mark.parametrize("number", ["+7 940 123 4567", "+61 491 570 156", "+1 613 555 0123"])
def test_a_number_of_another_land_is_not_texted_and_the_answer_says_which_are(
    lines: Lines, number: str
) -> None:
    answer = lines.say("Ada", f"invite Mum {number}")

    assert answer.startswith("I text only numbers of US first.")
    assert "invite for a code" in answer
    assert sent(lines) == 0


def test_each_land_that_is_set_is_texted(engine: Engine) -> None:
    two = Texting(running=True, region="US", lands=("AU", "CA"))
    lines = crew_of_ada(Lines(engine, texting=two))

    assert "once, by text" in lines.say("Ada", "invite Mum +61 491 570 156")
    assert "once, by text" in lines.say("Ada", "invite Mum +1 613 555 0123")
    assert lines.say("Ada", "invite 202 555 0123").startswith("I text only numbers of AU, CA")


def test_without_any_land_nobody_is_texted_first(engine: Engine) -> None:
    lines = crew_of_ada(Lines(engine, texting=Texting(running=True)))

    assert lines.say("Ada", "invite Mum +1 202 555 0123").startswith("I text no number first.")
    assert sent(lines) == 0
    assert Texting(running=True).fault_of("+12025550123") is NumberFault.NO_LAND


def ask(lines: Lines, who: str, number: int) -> str:
    return lines.say(who, f"invite 202 555 01{number:02d}")


def test_a_crew_asks_only_so_many_numbers_within_a_day(engine: Engine) -> None:
    few = Texting(running=True, region="US", crew_daily_invites=3)
    lines = crew_of_ada(Lines(engine, texting=few))
    lines.say("Bea", "new yard Ridge")
    for number in range(3):
        assert "once, by text" in ask(lines, "Ada", number)
        lines.text(f"+120255501{number:02d}", "stop")

    assert "enough numbers for a day" in ask(lines, "Ada", 3)
    assert "once, by text" in ask(lines, "Bea", 3), "another crew may"
    assert "once, by text" in ask(lines.later(days=1), "Ada", 4)


def test_all_crews_together_ask_only_so_many_numbers_within_a_day(engine: Engine) -> None:
    few = Texting(running=True, region="US", daily_invites=4)
    lines = Lines(engine, texting=few)
    for number in range(4):
        lines.say(f"Founder {number}", "begin")
        assert "once, by text" in ask(lines, f"Founder {number}", number)
    lines.say("Founder 9", "begin")

    assert "Enough numbers were asked here for a day" in ask(lines, "Founder 9", 9)
    assert "once, by text" in ask(lines.later(days=1), "Founder 9", 9)


def test_what_is_not_set_is_20_a_day_and_5_of_a_crew() -> None:
    sms = Settings().sms
    assert (sms.daily_invites, sms.crew_daily_invites, sms.lands) == (20, 5, None)


@pytest.mark.parametrize("number", ["+19005550100", "+61491570156", "+18005550100"])
def test_a_stranger_who_could_not_be_asked_is_not_answered_either(
    lines: Lines, number: str
) -> None:
    assert lines.text(number, "hello") == ""
    assert "not known here" in lines.text("+12025550199", "hello")


def test_a_code_lets_in_from_whatever_land(lines: Lines) -> None:
    code = lines.say("Ada", "invite").split("join ")[1][:6]

    assert lines.text("+61491570156", f"join {code}").startswith("Welcome")


def test_only_so_many_strangers_are_answered_within_a_day(engine: Engine) -> None:
    lines = Lines(engine, texting=Texting(running=True, region="US"))
    answers = [lines.text(f"+120255501{number:02d}", "hello") for number in range(60)]

    assert sum("not known here" in answer for answer in answers) == STRANGERS_A_DAY
    assert set(answers[STRANGERS_A_DAY:]) == {""}
    assert "not known here" in lines.later(days=1).text("+12025550177", "hello")
