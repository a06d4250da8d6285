"""Yards are renamed and removed, boxes emptied, removed and moved, and all of it can be undone."""

from datetime import date

import pytest

from deploy.standins.phones import Phones, river_of_three


@pytest.fixture
def river(phones: Phones) -> Phones:
    """River of boxes 1 to 6, cells in box 1 since two weeks."""
    phones.on(date(2027, 5, 1))
    river_of_three(phones)
    phones.say("Ada", "10 day cells in 1a-c")
    return phones.on(date(2027, 5, 17))


def test_a_renamed_yard_keeps_its_story(river: Phones) -> None:
    answer = river.say("Ada", "rename River to St. Mary's")

    assert answer.startswith("River is called St. Mary's now")
    assert river.say("Ada", "st mary 1a").startswith("St. Mary's 1a:")
    assert "Last: cell in" in river.say("Ada", "1a")
    assert "No yard" not in river.say("Ada", "1a eggs")


def test_a_renaming_is_undone(river: Phones) -> None:
    river.say("Ada", "rename River to Ridge")

    assert river.say("Ada", "undo") == "Undone: Ridge is River again."
    assert river.say("Ada", "1a").startswith("River 1a:")


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("rename River to due", "No yard can be called due"),
        ("rename River to Hill", "There is a yard Hill already"),
        ("rename yard Mill to Pond", "No yard of that name. There is River, Hill."),
    ],
)
def test_a_name_that_no_yard_may_have_is_refused(river: Phones, text: str, answer: str) -> None:
    river.say("Ada", "new yard Hill")

    assert answer in river.say("Ada", text)
    assert "River: " in river.say("Ada", "yards")


def test_a_yard_with_units_is_asked_about_and_goes(river: Phones) -> None:
    asked = river.say("Ada", "remove yard River")
    assert asked.startswith("Remove River with 18 units?")
    assert "River" in river.say("Ada", "yards")

    river.say("Ada", "remove yard River")
    assert river.say("Ada", "yes").startswith("River is gone")

    assert river.say("Ada", "yards").startswith("No yard yet")
    assert river.say("Ada", "due").startswith("Nothing due today.")
    assert ("River (removed) 1a", "cell_placed") in river.log("Ada")


def test_a_removed_yard_comes_back_whole(river: Phones) -> None:
    due = river.say("Ada", "due")
    river.each("Ada", "remove yard River", "yes")

    assert river.say("Ada", "undo") == "Undone: yard River back."
    assert river.say("Ada", "due") == due


def test_the_name_of_a_removed_yard_is_free(river: Phones) -> None:
    river.each("Ada", "remove yard River", "yes")

    assert "Yard River made" in river.say("Ada", "new yard River")
    river.say("Ada", "boxes 1-2 of 3")
    assert "Last: cell in" not in river.say("Ada", "1a")


def test_a_box_is_removed_and_brought_back(river: Phones) -> None:
    assert river.say("Ada", "remove box 1").startswith("Gone: River 1.")
    assert "No unit 1a here" in river.say("Ada", "1a eggs")
    assert "1a" not in river.say("Ada", "due")

    assert river.say("Ada", "undo") == "Undone: River: 1a-c back."
    assert "Last: cell in" in river.say("Ada", "1a")


def test_a_box_set_up_anew_does_not_have_the_old_story(river: Phones) -> None:
    river.each("Ada", "remove box 1", "boxes 1 of 3")

    assert "nothing due" in river.say("Ada", "1a")


def test_one_unit_is_removed(river: Phones) -> None:
    assert river.say("Ada", "remove 1b").startswith("Gone: River 1b.")
    assert "17 units" in river.say("Ada", "yards")


@pytest.mark.parametrize("text", ["empty box 1", "1 emptied", "emptied box 1"])
def test_a_box_is_emptied_and_stays(river: Phones, text: str) -> None:
    assert river.say("Ada", text).startswith("Noted: 1 emptied.")
    assert "ended" in river.say("Ada", "1a")
    assert "18 units" in river.say("Ada", "yards")


def test_a_unit_is_moved_with_its_story(river: Phones) -> None:
    story = river.say("Ada", "1a").splitlines()[0]

    assert river.say("Ada", "move 1a to 9b").startswith("River 1a is River 9b now")

    assert river.say("Ada", "9b").splitlines()[0] == story.replace("1a", "9b")
    assert "No unit 1a here" in river.say("Ada", "1a eggs")
    assert river.say("Ada", "9b eggs").startswith("Noted: 9 eggs.")
    assert "laying" in river.say("Ada", "9b")


def test_a_move_is_undone(river: Phones) -> None:
    story = river.say("Ada", "1a")
    river.say("Ada", "move 1a to 9b")

    assert river.say("Ada", "undo") == "Undone: River: 9b gone; River: 1a back."
    assert river.say("Ada", "1a") == story


def test_a_box_is_moved_to_another_yard(river: Phones) -> None:
    river.each("Ada", "new yard Hill", "boxes 1-2 of 3")

    assert river.say("Ada", "move river 1 to hill 7").startswith("River 1a-c is Hill 7a-c now")
    assert "Last: moved here" in river.say("Ada", "hill 7c")


def test_boxes_keep_their_names_in_another_yard(river: Phones) -> None:
    river.say("Ada", "new yard Hill")

    assert river.say("Ada", "move boxes river 1-2 to hill").startswith(
        "River 1a-c 2a-c is Hill 1a-c"
    )


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("move 2a to 1a", "Something is noted of River 1a already"),
        ("move box 1 to 9a", "Nothing moved. Say one unit or one box"),
        ("move 1a to 2", "Box 2 at River is 2a 2b 2c already"),
        ("move 8a to 9a", "No unit 8a here"),
    ],
)
def test_a_move_that_cannot_be_is_refused(river: Phones, text: str, answer: str) -> None:
    before = river.log("Ada")

    assert answer in river.say("Ada", text)
    assert river.log("Ada") == before


def test_a_day_is_no_place_to_move_to(river: Phones) -> None:
    before = river.log("Ada")

    assert "was not understood" in river.say("Ada", "move 1a to friday")
    assert river.log("Ada") == before
