"""A pressed button is taken off its message, and what was noted stands there instead."""

import itertools

from sqlalchemy import Engine

from bot.channels.channel import IncomingMessage, OutgoingMessage
from tests.bot.conversation.lines import Lines, crew_of_ada

_TAPS = itertools.count(1)


def press(lines: Lines, under: OutgoingMessage, number: int, button: str) -> list[OutgoingMessage]:
    """Press a button; gives the edits that came of it."""
    of = f"telegram{number}"
    lines.receive(
        IncomingMessage(
            "telegram",
            under.address,
            f"tap:{of}:{button}",
            button,
            lines.now,
            "Ada",
            tap=f"tap {next(_TAPS)}",
            replies_to=of,
        )
    )
    return [each for each in lines.chat.shown if each.edits == of]


def morning_of_two_rows(engine: Engine) -> tuple[Lines, OutgoingMessage, int]:
    """Ada's due list with a row for eggs and one for a cell, and its number in the chat."""
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "1a-c 3 day virgins")
    lines.say("Ada", "2a-c 10 day cells")
    lines.later(days=14)
    lines.say("Ada", "due")
    return lines, lines.chat.shown[-1], len(lines.chat.shown)


def texts(message: OutgoingMessage) -> list[list[str]]:
    return [[button.text for button in row] for row in message.buttons]


def test_the_row_of_the_button_goes_and_the_finding_stands_there(engine: Engine) -> None:
    lines, due, number = morning_of_two_rows(engine)
    (pressed, *_), *others = texts(due)

    (edited,) = press(lines, due, number, pressed)

    assert texts(edited) == others
    assert edited.text == f"{due.text}\nNoted: {pressed}."


def test_a_second_button_keeps_what_the_first_one_noted(engine: Engine) -> None:
    lines, due, number = morning_of_two_rows(engine)
    (first, *_), (second, *_) = texts(due)[:2]

    press(lines, due, number, first)
    last = press(lines, due, number, second)[-1]

    assert f"Noted: {first}." in last.text
    assert "Noted: " in last.text.splitlines()[-1]
    assert first not in str(last.buttons)
    assert second not in str(last.buttons)


def test_the_undo_button_goes_when_it_was_pressed(engine: Engine) -> None:
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "1a eggs")
    answer = lines.chat.shown[-1]

    (edited,) = press(lines, answer, len(lines.chat.shown), "undo")

    assert edited.buttons == ()
    assert edited.text == f"{answer.text}\nTaken back."


def test_a_button_that_noted_nothing_stays(engine: Engine) -> None:
    lines = crew_of_ada(Lines(engine))
    lines.say("Ada", "due")

    assert press(lines, lines.chat.shown[-1], len(lines.chat.shown), "9z eggs") == []


def test_what_is_typed_changes_no_message(engine: Engine) -> None:
    lines, _, _ = morning_of_two_rows(engine)
    lines.say("Ada", "1a eggs")

    assert [each for each in lines.chat.shown if each.edits] == []
