"""A person's morning, shown without sending it."""

import json

import pytest

from tests.bot.command.conftest import Yardbell

OUT = "2027-05-04"
"""Ten day cells of 1 May are out by then."""


def test_the_morning_names_the_units_and_the_reason(river: Yardbell) -> None:
    shown = river.good("morning", "--for", "Ada", "--on", OUT)
    assert shown.startswith("Tue 4 May, River:\nSee if out 1 2")


def test_scripts_get_each_check_with_its_place(river: Yardbell) -> None:
    found = json.loads(river.good("morning", "--for", "ada", "--on", OUT, "--json"))
    assert list(found) == ["for", "on", "message", "more", "due", "rests", "taken"]
    assert (found["for"], found["on"]) == ("Ada", OUT)
    emergence = [row for row in found["due"] if row["check"] == "emergence"]
    assert [row["unit"] for row in emergence] == ["1a", "1b", "1c", "2a", "2b", "2c"]
    assert {row["yard"] for row in emergence} == {"River"}


def test_json_and_plain_say_the_same_words(river: Yardbell) -> None:
    plain = river.good("morning", "--for", "Ada", "--on", OUT)
    found = json.loads(river.good("morning", "--for", "Ada", "--on", OUT, "--json"))
    assert plain == "\n".join([found["message"], *found["more"]]) + "\n"


def test_a_yard_that_a_partner_took_is_off_the_list(river: Yardbell) -> None:
    code = river.chat("Ada", "invite").partition("join ")[2].split()[0]
    river.chat("Milo", f"join {code}")
    river.chat("Milo", "taking river", on=OUT)
    found = json.loads(river.good("morning", "--for", "Ada", "--on", OUT, "--json"))
    assert (found["due"], found["taken"]) == ([], {"River": "Milo"})


@pytest.mark.parametrize("form", [[], ["--json"]])
def test_looking_changes_nothing(river: Yardbell, form: list[str]) -> None:
    before = river.database.read_bytes()
    files = sorted(river.folder.rglob("*"))
    river.good("morning", "--for", "Ada", "--on", OUT, *form)
    assert river.database.read_bytes() == before
    assert sorted(river.folder.rglob("*")) == files


def test_nothing_due_is_said(river: Yardbell) -> None:
    shown = river.good("morning", "--for", "Ada", "--on", "2027-04-30")
    assert shown == "Nothing is due on Fri 30 Apr; no message is sent.\n"
    found = json.loads(river.good("morning", "--for", "Ada", "--on", "2027-04-30", "--json"))
    assert (found["message"], found["more"], found["due"]) == (None, [], [])


def test_an_unknown_name_lists_the_known_ones(river: Yardbell) -> None:
    assert river("morning", "--for", "Bob").complaint == "nobody here is called Bob; known: Ada"


def test_before_anybody_is_there_nobody_is_known_and_no_file_is_made(yardbell: Yardbell) -> None:
    said = yardbell("morning", "--for", "Ada").complaint
    assert said == "nobody here is called Ada; known: nobody yet"
    assert not yardbell.database.exists()


def test_a_morning_is_somebodys(river: Yardbell) -> None:
    assert "--for" in river("morning", "--on", OUT).complaint


def test_two_crews_with_the_same_name_are_not_mixed_up(river: Yardbell) -> None:
    code = river.chat("Ada", "invite").partition("join ")[2].split()[0]
    river.chat("Milo", f"join {code}")
    river.chat("Noor", "new yard Hill")
    found = json.loads(river.good("morning", "--for", "Noor", "--on", OUT, "--json"))
    assert (found["due"], found["message"]) == ([], None)
