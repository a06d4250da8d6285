"""What is said of the crew's people and of where one is reached."""

from dataclasses import replace

import pytest

from bot.reading.reader import read
from bot.reading.result import Command, CommandName
from tests.bot.reading.yards_for_reading import at

PEOPLE = ("Ada", "Milo", "Milo 2", "Jo Ann")


def command(text: str) -> Command | None:
    return read(text, replace(at(), people=lambda: PEOPLE)).command


@pytest.mark.parametrize(
    ("text", "name", "sure"),
    [
        ("remove milo", "Milo", False),
        ("Remove Milo yes", "Milo", True),
        ("remove milo 2", "Milo 2", False),
        ("kick out jo ann, yes", "Jo Ann", True),
        ("remove Zed", "Zed", False),
    ],
)
def test_somebody_is_removed_by_name(text: str, name: str, sure: bool) -> None:
    assert command(text) == Command(CommandName.REMOVE, word=name, sure=sure)


@pytest.mark.parametrize("text", ["remove 4b", "remove box 4", "remove river", "remove yard Hill"])
def test_a_yard_or_a_unit_is_nobody(text: str) -> None:
    said = command(text)
    assert said is None or said.name is not CommandName.REMOVE


@pytest.mark.parametrize(
    ("text", "name", "role"),
    [
        ("milo owner", "Milo", "owner"),
        ("Milo 2 is a watcher", "Milo 2", "watcher"),
        ("make jo ann a keeper", "Jo Ann", "keeper"),
        ("let Milo be an owner", "Milo", "owner"),
        ("Zed keeper", "Zed", "keeper"),
    ],
)
def test_somebody_is_given_a_role(text: str, name: str, role: str) -> None:
    assert command(text) == Command(CommandName.ROLE, word=name, role=role)


def test_who_is_the_owner_gives_nobody_a_role() -> None:
    assert command("who is the owner") is None


@pytest.mark.parametrize(
    "text", ["hand the crew over to Milo", "hand over to milo", "give my crew to Milo"]
)
def test_the_crew_is_handed_over(text: str) -> None:
    assert command(text) == Command(CommandName.HAND_OVER, word="Milo")
    assert command(f"{text} yes") == Command(CommandName.HAND_OVER, word="Milo", sure=True)


def test_one_leaves_asks_for_ones_data_and_is_forgotten() -> None:
    assert command("leave") == command("Leave the crew.") == Command(CommandName.LEAVE)
    assert command("leave yes") == Command(CommandName.LEAVE, sure=True)
    assert command("my data") == command("send me all my data") == Command(CommandName.MY_DATA)
    assert command("forget me") == Command(CommandName.FORGET_ME)
    assert command("forget me, yes") == Command(CommandName.FORGET_ME, sure=True)


@pytest.mark.parametrize("text", ["4b leave it", "leave 4b till friday", "leave 4b alone"])
def test_to_leave_a_unit_alone_is_no_leaving(text: str) -> None:
    said = command(text)
    assert said is None or said.name is not CommandName.LEAVE


@pytest.mark.parametrize(
    ("text", "channel", "address"),
    [
        ("remove number", "sms", None),
        ("remove my old phone number", "sms", None),
        ("remove number 202 555 0123", "sms", "202 555 0123"),
        ("remove number +1 (202) 555-0123", "sms", "+1 (202) 555-0123"),
        ("remove chat", "telegram", None),
        ("remove my telegram", "telegram", None),
        ("remove mail", "mail", None),
        ("remove mail ada@yards.example", "mail", "ada@yards.example"),
        ("remove e-mail address ada@yards.example", "mail", "ada@yards.example"),
    ],
)
def test_a_way_is_removed(text: str, channel: str, address: str | None) -> None:
    assert command(text) == Command(CommandName.REMOVE_WAY, word=channel, number=address)
