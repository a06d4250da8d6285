"""What a channel hands on, kept in memory."""

from dataclasses import dataclass, field
from datetime import datetime

from bot.channels.channel import IncomingMessage
from bot.channels.reports import DeliveryReport


@dataclass
class TakenIn:
    """Takes messages and reports; may be told to fail.

    Attributes:
        now: the present instant of the channel.
        full: nothing can be stored.
    """

    now: datetime
    full: bool = False
    messages: list[IncomingMessage] = field(default_factory=list)
    reports: list[DeliveryReport] = field(default_factory=list)

    async def receive(self, message: IncomingMessage) -> None:
        if self.full:
            raise OSError("the disk is full")
        self.messages.append(message)

    async def report(self, report: DeliveryReport) -> None:
        if self.full:
            raise OSError("the disk is full")
        self.reports.append(report)

    @property
    def texts(self) -> list[str]:
        return [message.text for message in self.messages]
