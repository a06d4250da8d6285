"""People on several channels at once: what each says, and what comes over which channel."""

import asyncio
import itertools
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta

from sqlalchemy import Engine

from bot.channels.channel import IncomingMessage, OutgoingMessage, SendOutcome, SendResult
from bot.channels.sms.phone_number import Texting
from bot.channels.traits import ChannelTraits, traits_of
from bot.conversation.message_handler import MessageHandler
from bot.delivery.answer_limit import AnswerLimit
from bot.delivery.intake import Intake
from bot.delivery.sender import Sender
from bot.jobs.mornings import queue_mornings
from bot.settings.founding import Founding
from bot.wording.cautions import cautions
from scheduling.records.addresses import find_person
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading, writing
from scheduling.records.people import Person

DAY = date(2027, 5, 12)

_IDS = itertools.count(1)

# Invented numbers of the range set aside for fiction in North America, 555-0100 to 555-0199.
MILO, NILS = "+12025550123", "+12025550124"


@dataclass
class Line:
    """A channel that takes every letter, unless ``failing`` says otherwise."""

    name: str
    shown: list[OutgoingMessage] = field(default_factory=list)
    failing: Callable[[OutgoingMessage], SendOutcome | None] = lambda _outgoing: None
    _sent: "itertools.count[int]" = field(default_factory=lambda: itertools.count(1))

    @property
    def traits(self) -> ChannelTraits:
        """Those of the channel that it stands for."""
        return traits_of(self.name)

    async def listen(self, receive: object) -> None:
        """Nothing comes in by itself."""

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Take the letter under an id of this carrier's."""
        outcome = self.failing(outgoing)
        if outcome is None or outcome.result is SendResult.SENT:
            self.shown.append(outgoing)
        return outcome or SendOutcome(SendResult.SENT, carrier_id=f"{self.name}{next(self._sent)}")

    async def close(self) -> None:
        """Nothing to let go of."""

    def to(self, address: str) -> list[str]:
        """What was sent to an address, the yearly caution left out."""
        texts = [outgoing.text for outgoing in self.shown if outgoing.address == address]
        return [text for text in texts if text != cautions()]


class Lines:
    """A chat and texts, one database, and the time it is."""

    _ids = itertools.count(1)

    def __init__(
        self,
        engine: Engine,
        on: date = DAY,
        texting: Texting | None = None,
        founding: Founding = Founding.ANYBODY,
        answer_limit: AnswerLimit | None = None,
    ) -> None:
        self.engine = engine
        self.now = datetime.combine(on, time(15), tzinfo=UTC)
        self.chat, self.texts = Line("telegram"), Line("sms")
        texting = texting or Texting(running=True, region="US")
        handler = MessageHandler(
            "UTC", texting=texting, founding=founding, answer_limit=answer_limit
        )
        self._intake = Intake(engine, handler)

    def say(self, who: str, text: str) -> str:
        """What a chat is answered on the spot."""
        return self._said(self.chat, who, text, sender=who)

    def hand_in(self, who: str, text: str) -> None:
        """Take a chat's message in and leave its answer to be sent."""
        key = str(next(_IDS))
        message = IncomingMessage(self.chat.name, who, key, text, self.now, who)
        self._intake.receive(message, self.now)

    def edit(self, who: str, text: str, of: str | None) -> str:
        """What a chat is answered to the edit of an earlier message."""
        return self._said(self.chat, who, text, sender=who, corrects=of)

    def text(self, number: str, text: str) -> str:
        """What a number is answered on the spot."""
        return self._said(self.texts, number, text)

    def later(self, **span: float) -> "Lines":
        """Let time pass, and send what became due."""
        self.now += timedelta(**span)
        self.deliver()
        return self

    def at(self, day: date, hour: int, minute: int = 0) -> "Lines":
        """Go on to another hour, without looking after anything."""
        self.now = datetime.combine(day, time(hour, minute), tzinfo=UTC)
        return self

    def deliver(self) -> None:
        """Send what may be sent now, as fast as it goes: the clock stands still meanwhile."""
        lines = {line.name: line for line in (self.chat, self.texts)}
        asyncio.run(Sender(self.engine, lines, lambda: self.now, {}).round())

    def morning(self) -> None:
        """Let the morning tick come, and send what it brings."""
        queue_mornings(self.engine, self.now, ("telegram", "sms"))
        self.deliver()

    def person(self, channel: str, address: str) -> Person | None:
        """Who is at an address."""
        with reading(self.engine) as session:
            return find_person(session, channel, address)

    def give(self, who: str, channel: str, address: str) -> None:
        """Give somebody of the chat a further address."""
        person = self.person("telegram", who)
        assert person is not None
        with writing(self.engine) as session:
            CrewRecords(session, person.crew_id).add_address(person.id, channel, address)

    def _said(
        self, line: Line, address: str, text: str, sender: str = "", corrects: str | None = None
    ) -> str:
        before = len(line.shown)
        key = str(next(_IDS))
        self.receive(IncomingMessage(line.name, address, key, text, self.now, sender, corrects))
        mine = [each.text for each in line.shown[before:] if each.address == address]
        return "\n".join(text for text in mine if text != cautions())

    def receive(self, message: IncomingMessage) -> None:
        """Work a message through, and send what came of it."""
        self._intake.receive(message, self.now)
        self.deliver()


def crew_of_ada(lines: Lines) -> Lines:
    """Ada with a yard River, boxes 1 to 2 of three units, on the chat."""
    for text in ("new yard River", "boxes 1-2 of 3", "zone America/Chicago"):
        lines.say("Ada", text)
    return lines
