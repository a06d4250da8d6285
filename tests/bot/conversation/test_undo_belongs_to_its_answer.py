"""A button and a quote speak of the message that they belong to, and of no other."""

from deploy.standins.phones import Phones, river_of_three


def told(phones: Phones, text: str, who: str = "Ada") -> str:
    """Say something, and give the id of its answer."""
    phones.say(who, text)
    return phones.last


def test_the_button_under_an_older_answer_takes_that_answer_back(phones: Phones) -> None:
    river_of_three(phones)
    first, second = told(phones, "2a eggs"), told(phones, "2b eggs")

    assert phones.press("Ada", "undo", first).startswith("Undone: 2a eggs.")
    assert phones.press("Ada", "undo", second).startswith("Undone: 2b eggs.")
    assert phones.log("Ada") == [
        ("River 2a", "eggs"),
        ("River 2b", "eggs"),
        ("River 2a", "strike"),
        ("River 2b", "strike"),
    ]


def test_an_undo_pressed_again_says_that_it_is_done(phones: Phones) -> None:
    river_of_three(phones)
    first, _ = told(phones, "2a eggs"), told(phones, "2b eggs")
    phones.press("Ada", "undo", first)
    before = phones.log("Ada")

    phones.on(phones.now.date(), 13)

    assert "taken back already" in phones.press("Ada", "undo", first)
    assert phones.log("Ada") == before


def test_an_undo_of_what_noted_nothing_or_is_not_known_takes_nothing_back(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "2a eggs")
    due = told(phones, "due")

    for old in (due, "a letter of long ago"):
        assert "noted nothing with that one" in phones.say("Ada", "undo", quoting=old)
    assert phones.log("Ada") == [("River 2a", "eggs")]


def test_undo_by_itself_takes_back_the_last(phones: Phones) -> None:
    river_of_three(phones)
    phones.each("Ada", "2a eggs", "2b eggs")

    assert phones.say("Ada", "undo").startswith("Undone: 2b eggs.")


def test_undo_after_a_quote_takes_back_what_was_quoted(phones: Phones) -> None:
    river_of_three(phones)
    first, _ = told(phones, "2a eggs"), told(phones, "2b eggs")

    assert phones.say("Ada", "undo", quoting=first).startswith("Undone: 2a eggs.")


def test_a_quote_of_ones_own_message_speaks_of_it(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "2a eggs", key="mine")
    phones.say("Ada", "2b eggs")

    assert phones.say("Ada", "undo", quoting="mine").startswith("Undone: 2a eggs.")


def test_oops_after_a_quote_of_ones_own_message_is_of_its_units(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "2a eggs", key="mine")

    assert phones.say("Ada", "oops no eggs", quoting="mine").startswith("Corrected: 2a no eggs.")


def test_oops_after_a_quote_corrects_what_was_quoted(phones: Phones) -> None:
    river_of_three(phones)
    first, _ = told(phones, "2a eggs"), told(phones, "2b eggs")

    assert phones.say("Ada", "oops no eggs", quoting=first).startswith("Corrected: 2a no eggs.")
    assert phones.log("Ada")[2:] == [("River 2a", "strike"), ("River 2a", "no_eggs")]


def test_oops_after_a_quote_may_name_the_unit_that_was_meant(phones: Phones) -> None:
    river_of_three(phones)
    first = told(phones, "2a eggs")

    assert phones.say("Ada", "oops 3a eggs", quoting=first).startswith("Corrected: 3a eggs.")
    assert phones.log("Ada")[1:] == [("River 2a", "strike"), ("River 3a", "eggs")]


def test_oops_of_one_of_several_units_leaves_the_others(phones: Phones) -> None:
    river_of_three(phones)
    all_three = told(phones, "2a-c eggs")

    phones.say("Ada", "oops 2c no eggs", quoting=all_three)

    assert phones.log("Ada")[3:] == [("River 2c", "strike"), ("River 2c", "no_eggs")]


def test_oops_alone_after_a_quote_takes_it_back(phones: Phones) -> None:
    river_of_three(phones)
    first, _ = told(phones, "2a eggs"), told(phones, "2b eggs")

    assert phones.say("Ada", "oops", quoting=first).startswith("Undone: 2a eggs.")


def test_a_finding_without_a_unit_is_of_the_units_that_are_quoted(phones: Phones) -> None:
    river_of_three(phones)
    first = told(phones, "2a-b eggs")

    assert phones.say("Ada", "good brood", quoting=first).startswith("Noted: 2ab good sealed")
    assert "which units" in phones.say("Ada", "good brood")


def test_a_finding_after_a_units_story_is_of_that_unit(phones: Phones) -> None:
    river_of_three(phones)
    story = told(phones, "3b")

    assert phones.say("Ada", "eggs", quoting=story).startswith("Noted: 3b eggs.")


def test_a_bare_unit_after_a_quote_is_of_the_yard_that_is_quoted(phones: Phones) -> None:
    river_of_three(phones)
    of_river = told(phones, "2a eggs")
    phones.each("Ada", "new yard Hill", "boxes 1-6 of 3")

    assert phones.say("Ada", "2b eggs", quoting=of_river).startswith("Noted: River 2b eggs.")


def test_an_edited_report_is_taken_back_by_the_button_of_its_new_answer(phones: Phones) -> None:
    river_of_three(phones)
    phones.say("Ada", "2a eggs", key="first")
    phones.say("Ada", "2a no eggs", key="edit", corrects="first")
    corrected = phones.last
    phones.say("Ada", "2b eggs")

    assert phones.press("Ada", "undo", corrected).startswith("Undone: 2a no eggs.")


def test_nobody_takes_back_what_a_partner_noted(phones: Phones) -> None:
    river_of_three(phones)
    code = phones.say("Ada", "invite").split("join ")[1][:6]
    phones.say("Milo", f"join {code}")
    of_ada = told(phones, "2a eggs")

    assert "noted nothing with that one" in phones.say("Milo", "undo", quoting=of_ada)
    assert ("River 2a", "strike") not in phones.log("Ada")
