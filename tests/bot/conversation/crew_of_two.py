"""A crew of two on the chat, and a carrier that fails for one of them."""

from collections.abc import Callable

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult
from bot.channels.send_error import SendError
from tests.bot.conversation.lines import MILO, Lines, crew_of_ada


def code_of(lines: Lines, who: str, text: str = "invite") -> str:
    return lines.say(who, text).split("join ")[1][:6]


def ada_and_milo(lines: Lines) -> Lines:
    """Ada and Milo on the chat, with cells that are due in three days."""
    crew_of_ada(lines)
    lines.say("Milo", f"join {code_of(lines, 'Ada')}")
    lines.say("Ada", "10 day cells in 1a-c")
    lines.say("Milo", "zone America/Chicago")
    return lines.later(minutes=1)


def milo_by_text(lines: Lines) -> Lines:
    """Let Milo have a phone number too."""
    lines.say("Milo", "number 202 555 0123")
    lines.text(MILO, "yes")
    return lines.later(minutes=1)


def only_to(who: str, result: SendResult) -> Callable[[OutgoingMessage], SendOutcome | None]:
    """A carrier that fails for one address only."""

    def failing(outgoing: OutgoingMessage) -> SendOutcome | None:
        failed = SendOutcome(result, error=SendError.NO_CONNECTION)
        return failed if outgoing.address == who else None

    return failing
