"""The written rules of the post: purposes, states, repeats, leases and waits."""

from datetime import timedelta
from enum import StrEnum


class OutboxState(StrEnum):
    """Where a message out stands; it never goes backwards from an ended state."""

    PLANNED = "planned"
    CLAIMED = "claimed"
    SENT = "sent"
    FAILED = "failed"
    UNKNOWN = "unknown"
    EXPIRED = "expired"


OPEN = (OutboxState.PLANNED, OutboxState.CLAIMED)


class Purpose(StrEnum):
    """What a message out is for."""

    MORNING = "morning"
    ANSWER = "answer"
    NEWS = "news"
    """Something about the crew that the person did not ask for, as a partner who joined."""
    CAUTION = "caution"
    ALERT = "alert"
    """That a channel is silent."""


REPEAT_WHEN_UNKNOWN = {
    Purpose.MORNING: 1,
    Purpose.ANSWER: 1,
    Purpose.NEWS: 0,
    Purpose.CAUTION: 1,
    Purpose.ALERT: 1,
}
"""How often a message may be sent again when it is not known whether it arrived.

A second copy of a morning or an answer costs a smile; a lost one may cost a queen.
"""

UNASKED = (Purpose.MORNING, Purpose.NEWS, Purpose.ALERT)
"""What somebody who stopped their messages gets no more; the caution is for their safety."""

LEASE = timedelta(seconds=30)
"""How long a claim holds: longer than any one send takes, and no longer, because after a crash
a person's further answers wait for its end."""

FIRST_WAIT = timedelta(seconds=2)
LONGEST_WAIT = timedelta(minutes=10)


def back_off(attempts: int) -> timedelta:
    """Say how long to wait after so many tries (1 or more) when the carrier does not say."""
    doublings = min(attempts - 1, 12)
    return min(FIRST_WAIT * float(2**doublings), LONGEST_WAIT)
