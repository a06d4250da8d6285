"""The dispatcher: what comes in is handled and answered, what goes out is sent.

With it the parts of a running program, as its composition root makes them.
"""

import asyncio
from collections.abc import Coroutine, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from sqlalchemy import Engine, bindparam, func, literal_column, select

from bot.channels.channel import Channel, IncomingMessage
from bot.channels.sms.phone_number import Texting
from bot.delivery.answer_limit import AnswerLimit
from bot.delivery.claims import Claimed
from bot.delivery.intake import Handler, Intake
from bot.delivery.message_tables import IS_PLANNED, OutboxRow
from bot.delivery.pruning import KEPT
from bot.delivery.rules import SendQueue
from bot.delivery.sender import Clock, Sender
from bot.delivery.sms_budget import SmsBudget
from bot.program_log import log_of
from bot.settings.address import HttpAddress
from bot.settings.founding import Founding
from bot.weather.refresh import WeatherSource
from scheduling.records.engine import connection_of, reading

log = log_of(__name__)


def _now() -> datetime:
    return datetime.now(UTC)


@dataclass(frozen=True)
class App:
    """All parts of a running program.

    Attributes:
        engine: the database, with its newest schema.
        channels: the channels by name.
        zone: the time zone a new crew starts with.
        founding: who may found a crew.
        weather: gives the yards' weather, and is closed at the end; None for none.
        http: where carriers post to; None for nowhere.
        pages: where health and metrics are shown; None for nowhere.
        clock: gives the present instant.
        texting: how phone numbers are written, and which may be asked.
        sms_budget: how many segments of SMS a month has; None for no end of them.
        kept: how long what is done is kept before it is pruned.
        answer_limit: how much one number is answered by text within a day; None for any.
    """

    engine: Engine
    channels: Mapping[str, Channel]
    zone: str = "UTC"
    founding: Founding = Founding.INVITED
    weather: WeatherSource | None = None
    http: HttpAddress | None = None
    pages: HttpAddress | None = None
    clock: Clock = _now
    texting: Texting = field(default_factory=Texting)
    sms_budget: SmsBudget | None = None
    kept: timedelta = KEPT
    answer_limit: AnswerLimit | None = None


SHORT_WAIT = timedelta(seconds=1.2)
"""How long an answer that cannot leave at once is waited for; more than a chat's rate limit."""


TRIES_AT_ONCE = 3
"""How often an answer is tried again in this way; then the ticks go on with it."""

# When the next answer to an address may be tried. Made once, as the outbox's statements are.
_NEXT_TRY = select(func.min(OutboxRow.next_try_at)).where(
    IS_PLANNED,
    OutboxRow.address == bindparam("only_to"),
    OutboxRow.queue == literal_column(str(int(SendQueue.ANSWERS))),
)


class Dispatcher:
    """Joins the channels to the message handler and the outbox.

    Args:
        app: the parts of the program.
        handler: works through messages in.
        careful_until: until when it is noted what is in hand, since the last process died.
    """

    def __init__(self, app: App, handler: Handler, careful_until: datetime | None = None) -> None:
        self._engine = app.engine
        self._intake = Intake(app.engine, handler, careful_until)
        self._sender = Sender(app.engine, app.channels, app.clock, sms_budget=app.sms_budget)
        self._clock = app.clock
        self._in_hand: set[asyncio.Task[None]] = set()
        # An answer may wait behind a message that is on its way to the same person.
        self._unanswered: set[str] = set()
        self._one_round = asyncio.Lock()
        self._closing = False

    async def receive(self, message: IncomingMessage) -> None:
        """Take a message in, durably; its answer is sent without being waited for.

        Goes on to its end when cancelled. The next message in waits for neither a slow carrier
        nor a chat's rate limit.
        """
        taken = asyncio.get_running_loop().create_future()
        self._begun(self._work(message, taken))
        await asyncio.shield(taken)

    async def catch_up(self, left_for: timedelta = timedelta(0)) -> None:
        """Work through messages in that have been left lying for so long."""
        await asyncio.to_thread(self._intake.catch_up, self._clock(), left_for)

    async def deliver(self) -> None:
        """Send what may be sent now; a round that is under way is not doubled.

        A cancelled round still ends the send in hand: cut off, it might be sent once more.
        """
        await self._to_its_end(self._round())

    async def finish(self) -> None:
        """Send the answers to the messages in hand, and no more than that."""
        self._closing = True
        self._sender.close()
        while self._in_hand:
            await asyncio.gather(*self._in_hand, return_exceptions=True)
        for address in tuple(self._unanswered):
            await self._answer(address)
        try:
            await asyncio.to_thread(self._intake.finish)
        except Exception:
            log.exception("what was in hand could not be put down")

    async def _to_its_end(self, work: Coroutine[None, None, None]) -> None:
        await asyncio.shield(self._begun(work))

    def _begun(self, work: Coroutine[None, None, None]) -> asyncio.Task[None]:
        task = asyncio.create_task(work)
        self._in_hand.add(task)
        task.add_done_callback(self._in_hand.discard)
        return task

    async def _round(self) -> None:
        async with self._one_round:
            answered = set(self._unanswered)
            await self._sender.round(going_on=lambda: not self._closing)
            if not self._closing:
                self._unanswered -= answered

    async def _work(self, message: IncomingMessage, taken: asyncio.Future[None]) -> None:
        """Take a message in, say that it was or why it was not, and send its answer."""
        claim = self._sender.claim_planned
        try:
            claimed = await asyncio.to_thread(self._intake.receive, message, self._clock(), claim)
        except Exception as error:  # noqa: BLE001 - for whoever handed the message in
            taken.set_exception(error)
            return
        # Before the next message is taken, so that this one's answer is on its way.
        self._unanswered.add(message.address)
        taken.set_result(None)
        await self._answer(message.address, claimed)

    async def _answer(self, address: str, claimed: Claimed | None = None) -> None:
        """Send what waits for an address, without waiting for a round of everybody's messages.

        An answer that must wait a moment, for its turn or after a failure, is waited for here:
        the next tick would be later.
        """
        try:
            await self._sender.answer(address, claimed)
            for _ in range(TRIES_AT_ONCE):
                wait = await asyncio.to_thread(self._short_wait, address)
                if wait is None:
                    return
                await asyncio.sleep(wait)
                await self._sender.answer(address, None)
        except Exception:
            # The message is in and its answer planned; the next tick sends it.
            log.exception("the answer could not be sent yet")

    def _short_wait(self, address: str) -> float | None:
        now = self._clock()
        with reading(self._engine) as session:
            at = connection_of(session).scalar(_NEXT_TRY, {"only_to": address})
        soon = at is not None and now < at <= now + SHORT_WAIT
        return (at - now).total_seconds() if at is not None and soon else None
