"""Questions that wait for a yes, and what is said when nothing waits for one."""

from bot.channels.channel import Button
from bot.wording.message import Message


def yes_or_no(question: str) -> Message:
    """Ask what a yes or a no answers, with a button for each."""
    return Message((question,), ((Button("yes", "yes"), Button("no", "no")),))


def yes_pressed() -> str:
    """Stand under a question whose yes was pressed."""
    return "Yes."


def left() -> str:
    """Confirm that what was asked about is not done."""
    return "Left. Nothing changed."


def nothing_to_leave() -> str:
    """Say that no question waits, and what the person may have meant."""
    return "Nothing was asked. stop ends all messages, undo takes back your last."


def asked_no_more() -> str:
    """Say that the question whose yes was pressed is not the one that waits."""
    return "That question is over. Nothing changed. Say it again."
