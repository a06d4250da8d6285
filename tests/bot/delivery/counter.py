"""The outbox as tests use it: plan, claim and mark, each at a time that the test gives."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from sqlalchemy import Engine, select

from bot.channels.channel import Button, OutgoingMessage, SendOutcome, SendResult
from bot.delivery import outbox
from bot.delivery.claims import Claimed, claim
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import Recipient, complete
from bot.delivery.rules import Purpose
from scheduling.records.engine import reading, writing

NOW = datetime(2027, 5, 12, 10, tzinfo=UTC)
EGGS = ((Button("eggs 4b", "4b eggs"), Button("no eggs 4b", "4b no eggs")),)


def after(seconds: float) -> datetime:
    """So many seconds after noon of the tests."""
    return NOW + timedelta(seconds=seconds)


@dataclass
class Counter:
    """Messages out on one database; times are given in seconds after ``NOW``."""

    engine: Engine

    def plan(
        self,
        key: str,
        to: str = "11",
        purpose: Purpose = Purpose.ANSWER,
        at: float = 0,
        useful_for: float | None = None,
        channel: str = "phone",
        person_id: int | None = None,
    ) -> bool:
        """Queue a message whose text is its key."""
        until = None if useful_for is None else after(at + useful_for)
        recipient = Recipient(channel, to, person_id)
        outgoing = OutgoingMessage(to, key, EGGS)
        with writing(self.engine) as session:
            planned = outbox.plan(session, key, purpose, recipient, outgoing, after(at), until)
            return planned is not None

    def claim(
        self, at: float = 0, channels: Sequence[str] = ("phone",), only_to: str | None = None
    ) -> list[Claimed]:
        """Take what may be sent at an instant."""
        with writing(self.engine) as session:
            return claim(session, list(channels), after(at), only_to=only_to)

    def claimed_texts(self, at: float = 0, channels: Sequence[str] = ("phone",)) -> list[str]:
        """The texts of what may be sent at an instant, taken."""
        return [claimed.outgoing.text for claimed in self.claim(at, channels)]

    def mark(
        self, claimed: Claimed, result: SendResult, at: float = 0, wait: float | None = None
    ) -> None:
        """Write down how a send ended."""
        asked = None if wait is None else timedelta(seconds=wait)
        with writing(self.engine) as session:
            complete(session, claimed, SendOutcome(result, wait=asked), after(at))

    def send(self, result: SendResult, at: float = 0, wait: float | None = None) -> None:
        """Claim the one message that may be sent, and end its send."""
        (claimed,) = self.claim(at)
        self.mark(claimed, result, at, wait)

    def row(self, key: str) -> OutboxRow:
        """A message as it is kept."""
        with reading(self.engine) as session:
            return session.scalars(select(OutboxRow).where(OutboxRow.key == key)).one()

    def state(self, key: str) -> str:
        """Where a message stands."""
        return self.row(key).state
