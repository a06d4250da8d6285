"""The JSON that scripts depend on."""

import json

import pytest

from bot.command.as_json import reading_as_json
from bot.reading.reader import read
from tests.bot.reading.yards_for_reading import at


def test_one_finding_in_full() -> None:
    assert reading_as_json(read("4b eggs", at())) == {
        "entries": [
            {"unit": "4b", "kind": "eggs", "value": None, "on": "2027-05-12", "yard": "Home"}
        ],
        "questions": [],
        "command": None,
    }


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("fed 4b 1 quart", 0.946),
        ("fed 4b 2 litres", 2),
        ("fed 4b 1 quart 1:1", {"syrup_litres": 0.946, "ratio": "1:1"}),
        ("4b half frame food", 0.5),
        ("4b trap 12 beetles", 12),
        ("10 day cell 4b", 10),
        ("14e cell 4b", "14e"),
        ("4b spotty", "spotty"),
        ("4b queen sold", "sold"),
        ("took queen 4b to 11", {"fate": "used", "destination": "11"}),
        ("rained all day", "not_flying"),
        ("4b skip till friday", "2027-05-14"),
        ("4b note temper bad", "temper bad"),
    ],
)
def test_values_are_plain(text: str, value: object) -> None:
    (entry,) = reading_as_json(read(text, at()))["entries"]
    assert entry["value"] == value
    json.dumps(entry)


def test_a_batch_and_a_yard_have_no_unit() -> None:
    (graft,) = reading_as_json(read("grafted 40", at()))["entries"]
    assert (graft["unit"], graft["batch"]) == (None, "2027-05-12")
    (rain,) = reading_as_json(read("rain at river", at()))["entries"]
    assert (rain["unit"], rain["yard"]) == (None, "River")


@pytest.mark.parametrize(
    ("text", "words"),
    [("4b", "history 4b"), ("due river", "due River"), ("boxes 1-3,7 of 2", "boxes 1-3,7 of 2"),
     ("undo", "undo"), ("morning 5.45am", "morning 05:45")],
)  # fmt: skip
def test_commands_stand_as_one_would_type_them(text: str, words: str) -> None:
    assert reading_as_json(read(text, at()))["command"] == words
