"""The owner sets at which chances to look and give up, and the crew on which days it goes out."""

from datetime import date

import pytest
from sqlalchemy import select

from deploy.standins.phones import Phones, river_of_three
from scheduling.records.engine import writing
from scheduling.records.tables import PersonRow, Role

PLACED = date(2027, 5, 1)
"""A Saturday; the queen is due on the third."""


@pytest.fixture
def yard(phones: Phones) -> Phones:
    phones.on(PLACED)
    river_of_three(phones)
    phones.say("Ada", "10 day cells in 1a-c")
    phones.on(date(2027, 5, 4)).say("Ada", "1a-c out")
    return phones


def partner(phones: Phones, role: Role = Role.KEEPER) -> None:
    """Milo joins Ada's crew."""
    code = phones.say("Ada", "invite").split("join ")[1][:6]
    phones.say("Milo", f"join {code}")
    with writing(phones.engine) as session:
        row = session.scalars(select(PersonRow).where(PersonRow.name == "Milo")).one()
        row.role = str(role)


def test_a_bolder_look_comes_sooner_in_story_and_morning(yard: Phones) -> None:
    assert "look for eggs Sat 15 May" in yard.say("Ada", "1a")

    answer = yard.say("Ada", "look at 60 percent")

    assert answer.startswith("Look for eggs at 60% sure: in fair weather day 11")
    assert "look for eggs Fri 14 May" in yard.say("Ada", "1a")
    (morning,) = yard.on(date(2027, 5, 14), 6).morning() or yard.on(date(2027, 5, 14), 7).morning()
    assert "Look for eggs 1" in morning.text


def test_a_more_careful_look_comes_later(yard: Phones) -> None:
    yard.say("Ada", "look at 9 in 10")
    assert "look for eggs Mon 17 May" in yard.say("Ada", "1a")


def test_giving_up_later_when_the_crew_waits_for_less_hope(yard: Phones) -> None:
    yard.on(date(2027, 5, 25)).say("Ada", "1a no eggs")
    assert "from day 23" in yard.say("Ada", "give up at 5 percent")
    assert "from day 21" in yard.say("Ada", "usual odds")


def test_the_odds_are_shown_to_everybody_and_set_by_the_owner_alone(yard: Phones) -> None:
    partner(yard)
    shown = yard.say("Ada", "odds")
    assert yard.say("Milo", "odds") == shown
    assert "Only Ada can do that" in yard.say("Milo", "look at 60 percent")
    assert yard.say("Ada", "odds") == shown


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("look at 30 percent", "Say 50% to 95%, as in: look at 80 percent"),
        ("give up at 60 percent", "Say 1% to 50%, as in: give up at 10 percent"),
    ],
)
def test_odds_out_of_reason_are_refused_and_nothing_changes(
    yard: Phones, text: str, said: str
) -> None:
    before = yard.say("Ada", "odds")
    assert yard.say("Ada", text) == said
    assert yard.say("Ada", "odds") == before


def test_the_week_is_planned_for_the_crews_days(yard: Phones) -> None:
    yard.on(date(2027, 5, 11))
    assert "Sat 15 May:\nRiver: look for eggs 1" in yard.say("Ada", "week")

    assert yard.say("Ada", "days mon tue").startswith("You go out Mon Tue.")

    week = yard.say("Ada", "week")
    assert "Mon 17 May:\nRiver: look for eggs 1" in week
    assert "Sat 15 May" not in week


def test_late_work_is_shown_for_the_next_day_on_which_the_crew_goes(yard: Phones) -> None:
    yard.say("Ada", "days fri")
    week = yard.on(date(2027, 5, 20)).say("Ada", "week")
    assert "Fri 21 May:\nRiver: late: look for eggs 1" in week


def test_work_for_which_the_crew_has_no_day_is_told_first(yard: Phones) -> None:
    yard.say("Ada", "days tue")
    yard.say("Ada", "2a 10 day cell")
    week = yard.on(date(2027, 5, 12)).say("Ada", "week")
    assert week.startswith("This week, no day left for:\nRiver: look for eggs 1")


def test_days_are_taken_away_one_by_one_but_not_the_last(yard: Phones) -> None:
    assert yard.say("Ada", "days") == yard.say("Ada", "days every day")
    assert yard.say("Ada", "not on monday").startswith("You go out Tue Wed Thu Fri Sat Sun.")
    yard.say("Ada", "days sat")
    assert yard.say("Ada", "not on sat").startswith("No day would be left. Nothing changed.")
    assert yard.say("Ada", "days").startswith("You go out Sat.")


def test_the_days_are_shown_to_everybody_and_set_by_the_owner_alone(yard: Phones) -> None:
    yard.say("Ada", "days sat")
    partner(yard)
    assert yard.say("Milo", "days sun") == "Only Ada can do that. Nothing changed."
    watch(yard)
    assert yard.say("Milo", "days sun") == "Only Ada can do that. Nothing changed."
    assert yard.say("Milo", "days").startswith("You go out Sat.")


def watch(phones: Phones) -> None:
    """Milo only watches from now on."""
    with writing(phones.engine) as session:
        row = session.scalars(select(PersonRow).where(PersonRow.name == "Milo")).one()
        row.role = str(Role.WATCHER)
