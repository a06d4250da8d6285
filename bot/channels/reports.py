"""What carriers say later of a message they took: delivered, or failed."""

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from bot.channels.send_error import SendError


class Delivery(StrEnum):
    """How far a message got, from the carrier's hands to the phone."""

    HANDED_OVER = "handed over"
    """The carrier has it."""
    FAILED = "failed"
    """The carrier gave it up."""
    DELIVERED = "delivered"
    """The phone has it."""


FORWARD: Mapping[Delivery, frozenset[Delivery]] = {
    Delivery.HANDED_OVER: frozenset({Delivery.DELIVERED, Delivery.FAILED}),
    Delivery.FAILED: frozenset({Delivery.DELIVERED}),
    Delivery.DELIVERED: frozenset(),
}
"""Where a message may go on to. A phone that has it has it, whatever else is said of it: reports
overtake each other, and carriers that tried twice report both tries."""


def moved_on(at: Delivery, reported: Delivery) -> Delivery:
    """Where a message stands after a report; only ever forward, whatever order reports come in."""
    return reported if reported in FORWARD[at] else at


@dataclass(frozen=True)
class DeliveryReport:
    """A carrier's report of one message.

    Attributes:
        channel: the channel's name.
        carrier_id: the carrier's id of the message, as its send gave it.
        delivery: how far it got.
        at: when the report came; aware UTC instant.
        key: our own key of the message, where the carrier repeats it, else empty. It tells of a
            message whose send was not answered.
        error: why it failed, if the carrier says.
    """

    channel: str
    carrier_id: str
    delivery: Delivery
    at: datetime
    key: str = ""
    error: SendError | None = None


Report = Callable[[DeliveryReport], Awaitable[None]]
"""Stores a report durably before it returns; raises if it could not be stored."""


async def unheard(report: DeliveryReport) -> None:
    """Take a report that nobody asked for."""
