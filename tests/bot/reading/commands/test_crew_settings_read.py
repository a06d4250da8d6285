"""What a crew settles on, in the words people type."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.command.as_json import command_words
from bot.reading.reader import read
from bot.reading.result import Command, CommandName, QuestionKind
from bot.wording.days_and_numbers import weekday_name
from tests.bot.reading.yards_for_reading import at

WEEKEND = frozenset({5, 6})


def command(text: str) -> Command | None:
    return read(text, at()).command


@pytest.mark.parametrize(
    "text",
    ["look at 70 percent", "Look at 70%", "look for eggs at 7 in 10", "open at 70 per cent",
     "please look at 70 in 100 sure", "look when 70% sure"],
)  # fmt: skip
def test_the_chance_of_eggs_at_which_to_look(text: str) -> None:
    assert command(text) == Command(CommandName.LOOK_AT, chance=0.7)


@pytest.mark.parametrize(
    "text", ["give up at 5 percent", "give up under 5%", "give her up below 0.5 in 10"]
)
def test_the_chance_under_which_to_give_up(text: str) -> None:
    assert command(text) == Command(CommandName.GIVE_UP_AT, chance=0.05)


@pytest.mark.parametrize("text", ["look at 0%", "look at 100 percent", "give up at 20 in 10"])
def test_a_chance_that_is_none_is_asked_about(text: str) -> None:
    reading = read(text, at())
    assert reading.command is None
    assert reading.questions[0].kind is QuestionKind.BAD_NUMBER


def test_the_odds_are_shown_and_made_usual_again() -> None:
    assert command("odds") == command("my odds?") == Command(CommandName.ODDS)
    assert command("usual odds") == Command(CommandName.ODDS, word="usual")


@pytest.mark.parametrize(
    "text",
    ["days sat sun", "days: sat, sun", "Days sat and sun", "we drive saturdays and sundays",
     "we go out sat & sun", "days sat-sun", "days weekends", "we only drive on the weekend"],
)  # fmt: skip
def test_days_on_which_the_crew_goes(text: str) -> None:
    assert command(text) == Command(CommandName.DAYS, weekdays=WEEKEND)


@pytest.mark.parametrize(
    "text", ["not on monday", "never on mondays", "days not mon", "we don't drive on monday",
             "no drive on mon"],
)  # fmt: skip
def test_days_on_which_it_does_not(text: str) -> None:
    assert command(text) == Command(CommandName.DAYS, weekdays=frozenset({0}), but=True)


def test_runs_of_days_and_every_day() -> None:
    assert command("days mon-fri") == command("days weekdays")
    assert command("days mon to fri") == Command(CommandName.DAYS, weekdays=frozenset(range(5)))
    assert command("days fri to mon") == Command(CommandName.DAYS, weekdays=frozenset({4, 5, 6, 0}))
    assert command("days every day") == Command(CommandName.DAYS, weekdays=frozenset(range(7)))
    assert command("days") == command("our days") == Command(CommandName.DAYS)


@given(st.frozensets(st.integers(0, 6), min_size=1), st.sampled_from([" ", ", ", " and "]))
def test_any_days_in_any_order_with_any_joint(days: frozenset[int], joint: str) -> None:
    listed = joint.join(weekday_name(day) for day in days)
    assert command(f"days {listed}") == Command(CommandName.DAYS, weekdays=days)


@pytest.mark.parametrize("text", ["days of rain", "not on 4b", "not laying", "4b not on monday"])
def test_a_report_that_begins_alike_is_not_taken_for_it(text: str) -> None:
    found = command(text)
    assert found is None or found.name is not CommandName.DAYS


@pytest.mark.parametrize(
    ("text", "plain"),
    [("look at 7 in 10", "look_at 70 percent"), ("days sun sat", "days Sat Sun"),
     ("never on mondays", "days not Mon")],
)  # fmt: skip
def test_for_scripts_they_are_told_in_one_way(text: str, plain: str) -> None:
    found = command(text)
    assert found is not None
    assert command_words(found) == plain
