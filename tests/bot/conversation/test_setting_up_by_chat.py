"""Everything is set up without a computer, and every first message gets a useful answer."""

from datetime import date, time, timedelta

import pytest

from bot.conversation.set_up import find_zone
from deploy.standins.phones import DAY, Phones, river_of_three
from scheduling.records.addresses import find_person
from scheduling.records.engine import reading
from scheduling.records.people import Person


def person(phones: Phones, name: str) -> Person:
    with reading(phones.engine) as session:
        found = find_person(session, phones.name, name)
    assert found is not None
    return found


def test_a_stranger_is_told_what_this_is_and_nothing_of_any_crew(phones: Phones) -> None:
    river_of_three(phones)

    answer = phones.say("Stranger", "1a eggs")

    assert "Type begin" in answer
    assert "River" not in answer


def test_opening_the_chat_founds_no_crew(phones: Phones) -> None:
    assert "Type begin" in phones.say("Ada", "/start")
    assert "Type begin" in phones.say("Ada", "due")


@pytest.mark.parametrize(
    "said", ["4a eggs", "4a fed 1 quart", "10 day cells in 1-4", "4b note mild"]
)
def test_a_report_before_there_is_a_yard_is_told_what_comes_first(
    phones: Phones, said: str
) -> None:
    phones.say("Ada", "begin")

    answer = phones.say("Ada", said)

    assert answer.startswith("You have no yard yet. Nothing noted. First: new yard River")
    assert phones.log("Ada") == []


def test_a_zone_may_be_named_by_its_city(phones: Phones) -> None:
    river_of_three(phones)

    assert "Clock set to America/Chicago" in phones.say("Ada", "zone Chicago")
    assert "No time zone Nowhere" in phones.say("Ada", "zone Nowhere")


def test_a_plan_or_a_feeder_out_of_reason_is_asked_about(phones: Phones) -> None:
    river_of_three(phones)

    assert "plan 12 queens" in phones.say("Ada", "plan 99999 queens by 10 june")
    assert "feeder 2 quarts" in phones.say("Ada", "feeder 0")


def test_from_nothing_to_the_first_calendar(phones: Phones) -> None:
    phones.on(date(2027, 5, 12))
    begun, yard, boxes, cells = phones.each(
        "Ada", "begin", "new yard River", "boxes 1-12 of 3", "cells in 1a-4c, grafted 2 May"
    )

    assert "First a yard" in begun
    assert "Yard River made" in yard
    assert "36 units added" in boxes
    # A cell placed ten days after the graft is out about twelve days after it: D. Cushman,
    # grafting timetable, http://dave-cushman.net/bee/graftingtimesheet.html
    assert "see if out 1-4 Sat" in cells


def test_the_first_use_caution_comes_once_a_year(phones: Phones) -> None:
    first, second = phones.each("Ada", "begin", "help")

    assert "Stings" in first
    assert "Stings" not in second
    assert "Stings" in phones.on(date(2028, 5, 20)).say("Ada", "help")
    assert "Stings" in phones.say("Ada", "cautions")


def test_a_single_box_and_a_divided_one_stand_side_by_side(phones: Phones) -> None:
    river_of_three(phones)

    assert "1 unit added" in phones.say("Ada", "box 9 single")
    assert "Noted: 9" in phones.say("Ada", "caged queen in 9")


@pytest.mark.parametrize(
    ("name", "taken_for"), [("4", "a number"), ("due", "a command"), ("eggs", "a finding")]
)
def test_a_yard_is_not_called_what_means_something_else(
    phones: Phones, name: str, taken_for: str
) -> None:
    river_of_three(phones)

    answer = phones.say("Ada", f"new yard {name}")

    assert f"No yard can be called {name}: when typed, that is {taken_for}." in answer
    assert "\n" not in phones.say("Ada", "yards")


def test_a_beginning_of_two_names_is_answered_with_one_of_them(phones: Phones) -> None:
    for text in ("new yard Mill Pond", "boxes 1-2 of 3", "new yard Mill House", "boxes 1-2 of 3"):
        phones.say("Ada", text)
    phones.on(date(2027, 5, 13))

    assert "which yard, Mill Pond or Mill House?" in phones.say("Ada", "mill 1a eggs")
    assert phones.say("Ada", "Mill Pond").startswith("Noted: Mill Pond 1a eggs.")


def test_a_box_is_not_divided_anew_by_a_slip(phones: Phones) -> None:
    river_of_three(phones)

    assert "Nothing changed" in phones.say("Ada", "boxes 6-8 of 4")
    assert "has these boxes already" in phones.say("Ada", "boxes 1-6 of 3")


def test_boxes_before_any_yard(phones: Phones) -> None:
    phones.say("Ada", "begin")

    assert "new yard River" in phones.say("Ada", "boxes 1-4 of 3")


def test_with_two_yards_it_is_asked_which_one(phones: Phones) -> None:
    phones.on(date(2027, 5, 10))
    phones.each("Ada", "new yard River", "new yard Ridge")
    phones.on(date(2027, 5, 11))

    assert "Which yard: Ridge or River?" in phones.say("Ada", "boxes 1-4 of 3").replace(
        "River or Ridge", "Ridge or River"
    )
    assert "River: 12 units added" in phones.say("Ada", "river boxes 1-4 of 3")


def test_morning_zone_location_and_feeder(phones: Phones) -> None:
    river_of_three(phones)
    morning, zone, place, feeder = phones.each(
        "Ada", "morning 5:45", "zone America/Chicago", "location 41.3, -92.6", "feeder 2 quarts"
    )

    assert "5:45" in morning
    assert "America/Chicago" in zone
    assert "41.3000, -92.6000" in place
    assert "1.89 l" in feeder
    ada = person(phones, "Ada")
    assert (ada.morning, ada.zone) == (time(5, 45), "America/Chicago")
    assert ada.next_morning_at is not None
    assert ada.next_morning_at.astimezone().tzinfo is not None


@pytest.mark.parametrize(
    ("word", "zone"),
    [
        ("America/Chicago", "America/Chicago"),
        ("america/chicago", "America/Chicago"),
        ("chicago", "America/Chicago"),
        ("New York", "America/New_York"),
        ("Nowhere/Land", None),
    ],
)
def test_a_zone_is_found_by_name_or_city(word: str, zone: str | None) -> None:
    assert find_zone(word)[0] == zone


def test_an_unknown_zone_changes_nothing_and_offers_near_ones(phones: Phones) -> None:
    river_of_three(phones)

    answer = phones.say("Ada", "zone America/Chicgo")

    assert "America/Chicago" in answer
    assert person(phones, "Ada").zone == "UTC"


def test_stop_and_start(phones: Phones) -> None:
    river_of_three(phones)

    assert "Stopped" in phones.say("Ada", "STOP")
    assert person(phones, "Ada").stopped
    assert "Started" in phones.say("Ada", "start")
    assert not person(phones, "Ada").stopped


def test_a_member_who_begins_or_joins_again_stays_where_they_are(phones: Phones) -> None:
    river_of_three(phones)

    assert "in a crew already" in phones.say("Ada", "begin")
    own = phones.say("Ada", "invite").split("join ")[1][:6]
    assert "in a crew already" in phones.say("Ada", f"join {own}")
    assert "not good" in phones.say("Ada", "join ABC234")


def test_planning_a_graft_back_from_the_day_queens_are_wanted(phones: Phones) -> None:
    river_of_three(phones)

    answer = phones.on(date(2027, 3, 20)).say("Ada", "plan 12 queens by 10 june")

    # Graft + 12 days to emergence + 14 days to the first look, counted back by hand from 10 June:
    # 12 days from graft to emergence: D. Cushman, grafting timetable,
    # http://dave-cushman.net/bee/graftingtimesheet.html; first look 14 days after emergence:
    # B-THENET practice sheet, https://bthenet.eu/practices/
    # beurteilung-des-begattungserfolgs-und-beginn-der-eiablage-durch-die-neue-konigin
    assert "Graft 26 larvae Sat 15 May" in answer


def test_queens_failing_and_a_units_story(phones: Phones) -> None:
    phones.on(date(2027, 4, 28))
    river_of_three(phones)
    phones.say("Ada", "10 day cells in 1a-c")
    phones.on(date(2027, 5, 12)).each("Ada", "1a eggs, 1b dud")
    phones.on(date(2027, 5, 21)).say("Ada", "1a good brood")
    phones.on(date(2027, 5, 27))

    assert "1a laying 15 days" in phones.say("Ada", "queens")
    assert "1b no queen" in phones.say("Ada", "failing")
    story = phones.say("Ada", "1a").splitlines()
    assert story[0].startswith("River 1a: ")
    assert [line.split(":")[0] for line in story[1:]] == ["Last", "Next"]


def test_the_number_of_a_divided_box_tells_the_story_of_each_of_its_units(phones: Phones) -> None:
    river_of_three(phones)

    stories = phones.say("Ada", "2").splitlines()

    assert [line.split(":")[0] for line in stories[::3]] == ["River 2a", "River 2b", "River 2c"]


def test_week_shows_each_day_once(phones: Phones) -> None:
    phones.on(date(2027, 5, 9))
    river_of_three(phones)
    phones.each("Ada", "10 day cells in 1a-c", "caged queen in 2a, trap in 2a")

    week = phones.say("Ada", "week")

    assert "see if out 1" in week
    assert "check cage 2a" in week
    assert "Nothing due tomorrow" in phones.say("Ada", "tomorrow")


def test_a_morning_that_comes_tomorrow_only_says_so(phones: Phones) -> None:
    """A newcomer whose day began after the usual hour has had no morning today, and gets none."""
    river_of_three(phones)

    assert "The first comes tomorrow." in phones.say("Ada", "morning 12:01")
    phones.on(DAY + timedelta(days=1), hour=7)
    phones.morning()
    assert "tomorrow" not in phones.say("Ada", "morning 12:01")


def test_a_morning_of_an_hour_that_has_passed_needs_no_such_word(phones: Phones) -> None:
    river_of_three(phones)

    assert "tomorrow" not in phones.say("Ada", "morning 5:45")
