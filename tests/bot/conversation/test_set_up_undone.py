"""Undo takes back the last thing a person did, setting up included."""

from datetime import date, time

import pytest
from sqlalchemy import Engine

from deploy.standins.phones import Phones, river_of_three
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from scheduling.records.people import Person
from scheduling.records.yards import Yard
from tests.bot.conversation.lines import Lines, crew_of_ada


def ada(phones: Phones) -> Person:
    with reading(phones.engine) as session:
        person = find_person(session, phones.name, "Ada")
        assert person is not None
        return person


def yards(phones: Phones) -> dict[str, Yard]:
    with reading(phones.engine) as session:
        return {yard.name: yard for yard in CrewRecords(session, ada(phones).crew_id).yards()}


def test_boxes_are_taken_away_again(phones: Phones) -> None:
    river_of_three(phones)

    assert phones.say("Ada", "undo").startswith("Undone: River: ")
    assert phones.say("Ada", "yards") == "River: no boxes yet"


def test_a_yard_is_taken_away_again_and_may_be_made_anew(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "new yard Hill")

    assert phones.say("Ada", "undo") == "Undone: yard Hill gone."
    assert list(yards(phones)) == ["River"]
    assert "Yard Hill made" in phones.say("Ada", "new yard Hill")


def test_a_place_on_the_map_is_what_it_was(phones: Phones) -> None:
    river_of_three(phones)
    phones.each("Ada", "location 41.3, -92.6", "location 48.85, 2.35")

    assert phones.say("Ada", "undo") == "Undone: River at 41.3000, -92.6000."
    assert yards(phones)["River"].location == (41.3, -92.6)
    assert phones.say("Ada", "undo") == "Undone: River has no place on the map."
    assert yards(phones)["River"].location is None


def test_the_button_under_a_place_takes_it_back_whatever_came_since(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "location 41.3, -92.6")
    answer = phones.last
    phones.say("Ada", "2a eggs")

    assert phones.press("Ada", "undo", answer) == "Undone: River has no place on the map."
    assert phones.log("Ada") == [("River 2a", "eggs")]


def test_settings_of_ones_own_are_what_they_were(phones: Phones) -> None:
    river_of_three(phones)
    before = ada(phones)
    for text, told in (
        ("morning 5:45", "morning 6:30"),
        ("feeder 2 quarts", "feeder 0.95 l"),
        ("quiet 22 to 5", "quiet hours as before"),
    ):
        phones.say("Ada", text)
        assert phones.say("Ada", "undo") == f"Undone: {told}."
    after = ada(phones)
    assert (after.morning, after.feeder_litres) == (before.morning, before.feeder_litres)
    assert (after.quiet_from, after.quiet_until) == (None, None)
    assert after.next_morning_at == before.next_morning_at


def test_a_clock_is_put_back_with_the_yards_that_went_with_it(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "zone Asia/Tokyo")

    assert phones.say("Ada", "undo") == "Undone: clock UTC; River clock UTC."
    assert yards(phones)["River"].zone == "UTC"
    assert ada(phones).zone == "UTC"


def test_what_the_crew_settled_on_is_what_it_was(phones: Phones) -> None:
    river_of_three(phones)
    phones.each("Ada", "days sat sun", "look at 70 percent")

    assert phones.say("Ada", "undo") == "Undone: odds as before."
    assert phones.say("Ada", "undo") == "Undone: days as before."
    assert "any day" in phones.say("Ada", "days")


def test_what_was_done_last_is_taken_back_first(phones: Phones) -> None:
    river_of_three(phones)
    phones.each("Ada", "2a eggs", "morning 5:45", "2b eggs")

    undone = phones.each("Ada", "undo", "undo", "undo")

    assert [text.partition(".")[0] for text in undone] == [
        "Undone: 2b eggs",
        "Undone: morning 6:30",
        "Undone: 2a eggs",
    ]


def test_units_of_which_something_is_noted_are_not_taken_away(phones: Phones) -> None:
    river_of_three(phones)
    boxes = phones.last
    phones.say("Ada", "2a eggs")

    answer = phones.say("Ada", "undo", quoting=boxes)

    assert answer.startswith("Something is noted of River 2a. Nothing changed.")
    assert "18 units" in phones.say("Ada", "yards")


def test_what_was_changed_again_is_not_put_back(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "morning 5:45")
    first = phones.last
    phones.say("Ada", "morning 7:15")

    assert "changed again since" in phones.say("Ada", "undo", quoting=first)
    assert ada(phones).morning == time(7, 15)


def test_a_change_is_taken_back_once(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "morning 5:45")
    answer = phones.last

    assert "Undone" in phones.say("Ada", "undo", quoting=answer)
    assert "taken back already" in phones.say("Ada", "undo", quoting=answer)


def test_nobody_takes_back_what_a_partner_set_up(phones: Phones) -> None:
    river_of_three(phones)
    code = phones.say("Ada", "invite").split("join ")[1][:6]
    phones.say("Milo", f"join {code}")

    assert phones.say("Milo", "undo") == "Nothing of yours to undo."
    assert list(yards(phones)) == ["River"]


def test_asking_changes_nothing_that_could_be_undone(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "morning 5:45")
    phones.each("Ada", "quiet", "channels", "odds", "days", "yard River", "due")

    assert phones.say("Ada", "undo") == "Undone: morning 6:30."


def test_the_next_morning_comes_by_the_clock_that_is_back(phones: Phones) -> None:
    river_of_three(phones)
    before = ada(phones).next_morning_at
    phones.say("Ada", "zone Asia/Tokyo")
    assert ada(phones).next_morning_at != before

    phones.say("Ada", "undo")

    assert ada(phones).next_morning_at == before


def test_in_two_crews_what_holds_in_both_is_put_back_in_both(engine: Engine) -> None:
    lines = crew_of_ada(Lines(engine))
    lines.say("Bo", "new yard Ridge")
    code = lines.say("Bo", "invite").split("join ")[1][:6]
    lines.say("Ada", f"join {code}")

    lines.say("Ada", "morning 5:15")
    assert "Undone: morning 6:30" in lines.say("Ada", "undo")

    with reading(engine) as session:
        mornings = {
            person.morning
            for crew in (1, 2)
            for person in CrewRecords(session, crew).people()
            if person.name == "Ada"
        }
    assert mornings == {time(6, 30)}


@pytest.mark.parametrize("answer", ["no", "cancel", "due"])
def test_many_new_units_are_asked_about_first(phones: Phones, answer: str) -> None:
    phones.say("Ada", "new yard River")

    asked = phones.say("Ada", "boxes 1-40 of 3")

    assert asked == "120 units more in River? Nothing made yet. Type yes or no"
    phones.say("Ada", answer)
    assert phones.say("Ada", "yards") == "River: no boxes yet"
    assert "yes" not in phones.say("Ada", "yes")


def test_after_a_yes_they_are_made_and_can_be_taken_back(phones: Phones) -> None:
    phones.say("Ada", "new yard River")
    phones.say("Ada", "boxes 1-40 of 3")

    assert "120 units added" in phones.say("Ada", "yes")
    assert phones.say("Ada", "undo").startswith("Undone: River: ")


def test_the_yes_of_an_older_question_makes_nothing(phones: Phones) -> None:
    phones.say("Ada", "new yard River")
    phones.say("Ada", "boxes 1-40 of 3")
    first = phones.last
    phones.say("Ada", "boxes 1-30 of 3")

    assert "question is over" in phones.press("Ada", "yes", first)
    assert phones.say("Ada", "yards") == "River: no boxes yet"


def test_sixty_units_are_made_without_a_question(phones: Phones) -> None:
    phones.on(date(2027, 5, 12)).say("Ada", "new yard River")

    assert "60 units added" in phones.say("Ada", "boxes 1-20 of 3")
