"""How a text would be understood, without recording it."""

import json
from typing import Any

import pytest

from tests.bot.command.conftest import Yardbell


def understood(yardbell: Yardbell, *words: str) -> dict[str, Any]:
    found = json.loads(yardbell.good("read", "--json", "--on", "2027-05-12", *words))
    assert isinstance(found, dict)
    assert list(found) == ["entries", "questions", "command"]
    return found


def test_an_entry_has_its_unit_kind_value_and_day(yardbell: Yardbell) -> None:
    found = understood(yardbell, "4b eggs")
    entry = found["entries"][0]
    asked = {key: entry[key] for key in ("unit", "kind", "value", "on")}
    assert asked == {"unit": "4b", "kind": "eggs", "value": None, "on": "2027-05-12"}
    assert (found["questions"], found["command"]) == ([], None)


def test_words_need_no_quotes(yardbell: Yardbell) -> None:
    assert understood(yardbell, "4b", "eggs") == understood(yardbell, "4b eggs")


# A US quart is 0.946353 litres: NIST Handbook 44, Appendix C, from memory.
def test_an_amount_comes_in_litres(yardbell: Yardbell) -> None:
    assert understood(yardbell, "fed 2a 1 quart")["entries"][0]["value"] == pytest.approx(
        0.946, abs=0.001
    )


def test_a_command_stands_apart(yardbell: Yardbell) -> None:
    assert understood(yardbell, "due")["command"] == "due"


def test_with_nobody_there_any_unit_is_taken_and_no_file_is_made(yardbell: Yardbell) -> None:
    assert understood(yardbell, "499c eggs")["entries"][0]["unit"] == "499c"
    assert list(yardbell.folder.iterdir()) == []


def test_with_a_crew_a_unit_must_stand_in_a_yard(river: Yardbell) -> None:
    found = understood(river, "1a eggs, 9a eggs")
    assert [entry["unit"] for entry in found["entries"]] == ["1a"]
    assert ["9a" in question for question in found["questions"]] == [True]


def test_of_several_crews_one_must_be_named(river: Yardbell) -> None:
    river.chat("Noor", "new yard Hill", "boxes 9 of 3")
    assert "--for NAME" in river("read", "9a eggs").complaint
    assert understood(river, "--for", "Noor", "9a eggs")["entries"][0]["unit"] == "9a"
    assert understood(river, "--for", "ada", "9a eggs")["entries"] == []


@pytest.mark.parametrize("text", ["1a eggs", "undo", "new yard Hill", "river", "stop", "invite"])
def test_reading_changes_nothing(river: Yardbell, text: str) -> None:
    before = river.database.read_bytes()
    files = sorted(river.folder.rglob("*"))
    river.good("read", text)
    assert river.database.read_bytes() == before
    assert sorted(river.folder.rglob("*")) == files


def test_people_get_a_line_for_each_part(river: Yardbell) -> None:
    shown = river.good("read", "--on", "2027-05-12", "1a eggs, 1b blah, trap 2a 12 beetles")
    first, second, third = shown.splitlines()
    assert first == "2027-05-12  1a  eggs"
    assert second == "2027-05-12  2a  trap_serviced 12"
    assert third.startswith("?  ")
    assert "1b" in third
    assert river.good("read", "due") == "command: due\n"


def test_an_unknown_name_and_a_missing_text_are_refused(yardbell: Yardbell) -> None:
    assert "known: nobody yet" in yardbell("read", "--for", "Ada", "4b eggs").complaint
    assert "TEXT" in yardbell("read").complaint
    assert "too long" in yardbell("read", "4b eggs " * 600).complaint


def test_each_entry_names_its_yard_where_there_are_several(river: Yardbell) -> None:
    (alone,) = understood(river, "2b eggs")["entries"]
    assert alone == {"unit": "2b", "kind": "eggs", "value": None, "on": "2027-05-12"}
    river.chat("Ada", "new yard Ridge")
    (named,) = understood(river, "river 2b eggs")["entries"]
    assert named["yard"] == "River"
