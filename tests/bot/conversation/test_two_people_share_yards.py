"""A partner joins by code; both see the same units, and a yard can be taken on for a day."""

import re
from datetime import date

import pytest

from deploy.standins.phones import Phones, river_of_three


@pytest.fixture
def pair(phones: Phones) -> Phones:
    """Ada and Milo, a yard River with cells due a look for eggs on 12 May, and a yard Ridge."""
    phones.on(date(2027, 4, 28))
    river_of_three(phones)
    phones.say("Ada", "10 day cells in 1a-c, trap in 1a-c")
    phones.each("Ada", "new yard Ridge", "boxes 1-2 of 3", "virgins placed in 2a-c")
    invited = phones.say("Ada", "invite")
    code = re.search(r"join ([A-Z0-9]{6})", invited)
    assert code is not None
    phones.say("Milo", f"join {code[1].lower()}")
    return phones.on(date(2027, 5, 12))


def test_the_partner_sees_the_same_work(pair: Phones) -> None:
    assert pair.say("Milo", "due river") == pair.say("Ada", "due river")
    assert "Look for eggs 1" in pair.say("Milo", "due river")


def test_what_one_noted_is_off_the_others_list_and_shows_who(pair: Phones) -> None:
    pair.say("Ada", "river 1 eggs, river 1a fed 1 quart")

    due = pair.say("Milo", "due")

    assert "eggs 1" not in due.split("Ada noted")[0].split("Ridge")[0]
    assert "Ada noted: River 1 eggs" in due


def test_who_takes_a_yard_takes_it_off_the_others_list(pair: Phones) -> None:
    pair.say("Milo", "taking ridge")

    assert "Milo has it today" in pair.say("Ada", "due")
    assert "Ridge" in pair.say("Milo", "due")
    assert "Milo has it" not in pair.on(date(2027, 5, 13)).say("Ada", "due")


def test_undo_gives_the_yard_back(pair: Phones) -> None:
    pair.each("Milo", "taking ridge", "undo")

    assert "has it today" not in pair.say("Ada", "due")


def test_undo_takes_back_only_ones_own(pair: Phones) -> None:
    pair.say("Ada", "river 1a eggs")
    pair.say("Milo", "river 1b eggs")

    assert "River 1a eggs" in pair.say("Ada", "undo")
    assert "eggs" in pair.say("Milo", "river 1b")


def test_looking_where_the_partner_has_looked_says_so(pair: Phones) -> None:
    pair.say("Ada", "river 1a eggs")

    assert "Ada noted: River 1a eggs" in pair.say("Milo", "river 1a no eggs")


def test_a_code_is_good_once_and_a_wrong_one_lets_nobody_in(phones: Phones) -> None:
    river_of_three(phones)
    code = re.search(r"join ([A-Z0-9]{6})", phones.say("Ada", "invite"))
    assert code is not None
    phones.say("Milo", f"join {code[1]}")

    assert "not good" in phones.say("Nils", f"join {code[1]}")
    assert "not good" in phones.say("Nils", "join ZZZZ99")
    assert "Type begin" in phones.say("Nils", "due")


def test_the_owner_is_told_who_joined_and_only_the_owner_invites(phones: Phones) -> None:
    river_of_three(phones)
    code = re.search(r"join ([A-Z0-9]{6})", phones.say("Ada", "invite"))
    assert code is not None
    welcome = phones.say("Milo", f"join {code[1]}")

    assert "you share the yards of Ada. Yards: River." in welcome
    assert "Milo joined your crew." in [x.text for x in phones.shown if x.address == "Ada"]
    assert "Only Ada can do that" in phones.say("Milo", "invite")
    assert "Ada (owner)" in phones.say("Milo", "crew")


def test_crews_do_not_see_each_other(pair: Phones) -> None:
    pair.each("Nils", "begin", "new yard River", "boxes 1 of 3")

    assert "Nothing due" in pair.say("Nils", "due")
    assert "nothing noted yet" in pair.say("Nils", "1a")
