"""Two phones and a real database: what people write, and what their phones show."""

import asyncio
import itertools
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, time

from sqlalchemy import Engine

from bot.channels.channel import IncomingMessage, OutgoingMessage, SendOutcome, SendResult
from bot.channels.traits import ChannelTraits
from bot.conversation.message_handler import MessageHandler
from bot.delivery.intake import Intake
from bot.delivery.sender import deliver_all
from bot.jobs.mornings import queue_mornings
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading

DAY = date(2027, 5, 12)


class Phones:
    """Everybody's phone on one channel, and the day it is for all of them.

    The channel accepts every letter at once; ``failing`` makes it answer otherwise.
    """

    name = "phone"
    traits = ChannelTraits("phone")

    def __init__(self, engine: Engine, on: date = DAY) -> None:
        self.engine = engine
        self.now = datetime.combine(on, time(12), tzinfo=UTC)
        self.shown: list[OutgoingMessage] = []
        self.failing: Callable[[OutgoingMessage], SendOutcome | None] = lambda _outgoing: None
        self._intake = Intake(self.engine, MessageHandler("UTC"))
        self._ids = itertools.count(1)

    def say(
        self,
        who: str,
        text: str,
        *,
        key: str | None = None,
        corrects: str | None = None,
        quoting: str | None = None,
    ) -> str:
        """What ``who`` is answered, all letters one under the other."""
        sent_as = key or str(next(self._ids))
        message = IncomingMessage(self.name, who, sent_as, text, self.now, who, corrects)
        return self.hand_in(replace(message, replies_to=quoting))

    def press(self, who: str, button: str, under: str) -> str:
        """What ``who`` is answered to a button under a letter, which is named by its id."""
        key = f"tap:{under}:{button}"
        message = IncomingMessage(self.name, who, key, button, self.now, who, replies_to=under)
        return self.hand_in(replace(message, tap=str(next(self._ids))))

    def hand_in(self, message: IncomingMessage) -> str:
        """What a message is answered."""
        before, who = len(self.shown), message.address
        self._intake.receive(message, self.now)
        self.deliver()
        return "\n".join(
            outgoing.text for outgoing in self.shown[before:] if outgoing.address == who
        )

    @property
    def last(self) -> str:
        """The carrier's id of the letter that was shown last."""
        return f"letter {len(self.shown)}"

    def each(self, who: str, *texts: str) -> list[str]:
        """Answers to several messages, one after the other."""
        return [self.say(who, text) for text in texts]

    def on(self, day: date, hour: int = 12) -> "Phones":
        """Go on to another day."""
        self.now = datetime.combine(day, time(hour), tzinfo=UTC)
        return self

    def morning(self) -> list[OutgoingMessage]:
        """The mornings that this tick brings."""
        before = len(self.shown)
        queue_mornings(self.engine, self.now)
        self.deliver()
        return self.shown[before:]

    def deliver(self) -> None:
        """Send what waits."""
        asyncio.run(deliver_all(self.engine, {self.name: self}, lambda: self.now))

    def log(self, who: str) -> list[tuple[str, str]]:
        """The crew's log as (place, kind), in the order it was written."""
        with reading(self.engine) as session:
            person = find_person(session, self.name, who)
            assert person is not None
            entries = CrewRecords(session, person.crew_id).entries()
        return [(str(entry.place), str(entry.kind)) for entry in entries]

    async def listen(self, receive: object) -> None:
        """Nothing comes in by itself."""

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Show the letter, unless the test makes it fail."""
        outcome = self.failing(outgoing)
        if outcome is None or outcome.result is SendResult.SENT:
            self.shown.append(outgoing)
        return outcome or SendOutcome(SendResult.SENT, carrier_id=self.last)

    async def close(self) -> None:
        """Nothing to let go of."""


def river_of_three(phones: Phones, who: str = "Ada") -> None:
    """A crew of one with a yard River, boxes 1 to 6 of three units, past its first caution."""
    phones.each(who, "new yard River", "boxes 1-6 of 3")
