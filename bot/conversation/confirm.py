"""A yes or a no to a question that waits for one."""

from collections.abc import Callable
from dataclasses import replace

from bot.conversation.turn import Turn
from bot.reading.result import Command
from bot.wording import yes_or_no as words
from bot.wording.message import Message


def yes(turn: Turn, act_on: Callable[[Turn], Message]) -> Message:
    """Do what waits for a yes; the button of an older question does nothing.

    Args:
        turn: that of the yes.
        act_on: reads the turn's text and does what it says.
    """
    waits = turn.state.to_confirm
    turn.state = replace(turn.state, to_confirm=None)
    over = turn.quoted is not None and turn.message.tap is not None
    if waits is None or (over and _of_message(turn) != waits.message):
        return Message.of(words.asked_no_more())
    turn.message = replace(turn.message, text=waits.text)
    turn.confirmed = True
    answer = act_on(turn)
    return replace(answer, pressed=answer.pressed or words.yes_pressed())


def _of_message(turn: Turn) -> str | None:
    return None if turn.quoted is None else turn.quoted.of_message


def cancel(turn: Turn, _command: Command) -> Message:
    """Leave what was asked, whether it waits for a yes or for a yard."""
    if turn.state.to_confirm is None and not turn.state.unanswered:
        return Message.of(words.nothing_to_leave())
    turn.state = replace(turn.state, to_confirm=None, unanswered="")
    return Message((words.left(),), pressed=words.left())
