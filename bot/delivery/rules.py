"""The written rules of delivery: purposes, states, repeats, queues, leases and waits."""

from collections.abc import Mapping
from datetime import timedelta
from enum import IntEnum, StrEnum

from bot.backoff import Backoff


class OutboxState(StrEnum):
    """Where a message out stands."""

    PLANNED = "planned"
    CLAIMED = "claimed"
    SENT = "sent"
    FAILED = "failed"
    UNKNOWN = "unknown"
    EXPIRED = "expired"


OPEN = (OutboxState.PLANNED, OutboxState.CLAIMED)

MAY_BECOME: Mapping[OutboxState, frozenset[OutboxState]] = {
    OutboxState.PLANNED: frozenset({OutboxState.CLAIMED, OutboxState.EXPIRED}),
    OutboxState.CLAIMED: frozenset(
        {OutboxState.PLANNED, OutboxState.SENT, OutboxState.FAILED, OutboxState.UNKNOWN}
    ),
    OutboxState.SENT: frozenset(),
    OutboxState.FAILED: frozenset(),
    OutboxState.UNKNOWN: frozenset(),
    OutboxState.EXPIRED: frozenset(),
}
"""The only ways from state to state; the database itself refuses every other.

A claim goes back to planned when it is to be sent again or a further part of it is; an ended
state is never left.
"""


class Purpose(StrEnum):
    """What a message out is for."""

    MORNING = "morning"
    ANSWER = "answer"
    FAREWELL = "farewell"
    """The answer to a stop: the one message that must not come twice."""
    NEWS = "news"
    """Something about the crew that the person did not ask for, as a partner who joined."""
    CAUTION = "caution"
    """What can hurt, once a year before a morning."""
    FIRST_CAUTION = "first_caution"
    """The same beside an answer: its person wrote just now, and may be about to open a box."""
    INVITE = "invite"
    """The one message to a number that has not said yes yet."""
    ALERT = "alert"
    """That a channel is silent."""
    EDIT = "edit"
    """A message of ours whose button was pressed, as it is to stand from now on."""


REPEAT_WHEN_UNKNOWN: Mapping[Purpose, int] = {
    Purpose.MORNING: 1,
    Purpose.ANSWER: 1,
    Purpose.FAREWELL: 0,
    Purpose.NEWS: 0,
    Purpose.CAUTION: 1,
    Purpose.FIRST_CAUTION: 1,
    Purpose.INVITE: 0,
    Purpose.ALERT: 1,
    Purpose.EDIT: 1,
}
"""How often a message may be sent again when it is not known whether it arrived.

A second copy of a morning or an answer costs a smile; a lost one may cost a queen. Who was told
that no more messages come must not be told so again, and who did not say yes is asked once only.
"""

UNASKED = (Purpose.MORNING, Purpose.NEWS, Purpose.ALERT)
"""What somebody who stopped their messages gets no more; the caution is for their safety."""


class SendQueue(IntEnum):
    """Messages to one address keep their order within a queue, and the lower queue goes first.

    So an answer waits for the person's earlier answers, and never for a morning that fails; a
    change of an old message waits for both.
    """

    ANSWERS = 0
    REMINDERS = 1
    EDITS = 2


QUEUES: Mapping[Purpose, SendQueue] = {
    Purpose.MORNING: SendQueue.REMINDERS,
    Purpose.ANSWER: SendQueue.ANSWERS,
    Purpose.FAREWELL: SendQueue.ANSWERS,
    Purpose.NEWS: SendQueue.REMINDERS,
    Purpose.CAUTION: SendQueue.REMINDERS,
    Purpose.FIRST_CAUTION: SendQueue.REMINDERS,
    Purpose.INVITE: SendQueue.REMINDERS,
    Purpose.ALERT: SendQueue.REMINDERS,
    Purpose.EDIT: SendQueue.EDITS,
}

SEND_WITHIN = timedelta(seconds=8)
"""How long one send may take; after it nobody knows whether the message arrived."""

LEASE = timedelta(seconds=10)
"""How long a claim holds from the instant its send may begin: longer than any one send takes,
and no longer, because after a crash a person's further answers wait for its end."""


WAITS: Mapping[SendQueue, Backoff] = {
    SendQueue.ANSWERS: Backoff(timedelta(seconds=1), timedelta(seconds=20)),
    SendQueue.REMINDERS: Backoff(timedelta(seconds=2), timedelta(minutes=10)),
    SendQueue.EDITS: Backoff(timedelta(seconds=2), timedelta(minutes=10)),
}
"""Somebody waits for an answer, and their next one waits behind it; a morning has the day."""

LONGEST_WAIT = max(waits.longest for waits in WAITS.values())

JITTER = 0.25
"""The share of a wait by which it may be shortened, so that not all try again at one instant."""


def back_off(queue: SendQueue, failures: int, spread: float) -> timedelta:
    """Say how long to wait after so many failures (1 or more) when the carrier does not say.

    Args:
        queue: the message's queue.
        failures: how many tries did not arrive.
        spread: from 0 to 1, another for each message and try: how much the wait is shortened.
    """
    return WAITS[queue].after(failures) * (1 - JITTER * spread)
