"""What keeps a message from arriving: one closed list for all carriers, three facts each."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum


class SendError(StrEnum):
    """What went wrong with one send."""

    BLOCKED = "blocked"
    ACCOUNT_GONE = "account gone"
    NO_SUCH_CHAT = "no such chat"
    NEVER_BEGUN = "never begun"
    OPTED_OUT = "opted out"
    NO_SUCH_NUMBER = "no such number"
    NO_TEXTS = "no texts"
    NO_MAILBOX = "no mailbox"
    NO_ADDRESS = "no address"
    REFUSED = "refused"
    BLANK = "blank"
    USED_UP = "used up"
    FLOOD = "flood"
    MOVED = "moved"
    TOKEN_REFUSED = "token refused"  # noqa: S105 - a name, no token
    CARRIER_FAILED = "carrier failed"
    NO_CONNECTION = "no connection"
    NO_ANSWER = "no answer"
    ODD_ANSWER = "odd answer"
    TURN_PASSED = "turn passed"


class Tell(StrEnum):
    """Who is told of a send error."""

    NOBODY = "nobody"
    """It passes by itself."""
    CREW_OWNER = "crew owner"
    """Somebody of the crew cannot be reached."""
    OPERATOR = "operator"
    """Who runs the program must mend something: one line in the log."""


@dataclass(frozen=True)
class Facts:
    """What is to be known of a send error.

    Attributes:
        for_good: the same message to the same address will never arrive.
        address_gone: a known refusal of the address itself: it takes no more messages until one
            comes from it. No other error switches an address off.
        tell: who is told.
        words: what they are told; it goes on "... messages do not reach them: ".
    """

    for_good: bool
    address_gone: bool
    tell: Tell
    words: str


_GONE = (True, True, Tell.CREW_OWNER)
_OURS = (True, False, Tell.OPERATOR)
_OVER = (True, False, Tell.NOBODY)
_PASSES = (False, False, Tell.NOBODY)
_MEND = (False, False, Tell.OPERATOR)

SEND_ERRORS: Mapping[SendError, Facts] = {
    SendError.BLOCKED: Facts(*_GONE, "the chat is blocked"),
    SendError.ACCOUNT_GONE: Facts(*_GONE, "the account is gone"),
    SendError.NO_SUCH_CHAT: Facts(*_GONE, "there is no such chat"),
    SendError.NEVER_BEGUN: Facts(*_GONE, "the chat was never begun"),
    SendError.OPTED_OUT: Facts(*_GONE, "they told the carrier to stop"),
    SendError.NO_SUCH_NUMBER: Facts(*_GONE, "there is no such number"),
    SendError.NO_TEXTS: Facts(*_GONE, "the number takes no text messages"),
    SendError.NO_MAILBOX: Facts(*_GONE, "there is no such mailbox"),
    SendError.NO_ADDRESS: Facts(*_OURS, "the address is none of this channel"),
    SendError.REFUSED: Facts(*_OURS, "the carrier refused the message"),
    SendError.BLANK: Facts(*_OURS, "the message was blank"),
    SendError.USED_UP: Facts(*_OVER, "this month's texts are used up"),
    SendError.FLOOD: Facts(*_PASSES, "the carrier asked to wait"),
    SendError.MOVED: Facts(*_PASSES, "the chat has a new number"),
    SendError.TOKEN_REFUSED: Facts(*_MEND, "the carrier does not know our token"),
    SendError.CARRIER_FAILED: Facts(*_PASSES, "the carrier failed"),
    SendError.NO_CONNECTION: Facts(*_PASSES, "the carrier could not be reached"),
    SendError.NO_ANSWER: Facts(*_PASSES, "no answer came, so it may have arrived"),
    SendError.ODD_ANSWER: Facts(*_MEND, "the answer could not be read, so it may have arrived"),
    SendError.TURN_PASSED: Facts(*_PASSES, "its turn passed before it could be sent"),
}
"""The three facts of every send error: for good or not, whom to tell, the words."""
