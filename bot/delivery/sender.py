"""The round that carries planned messages to their channels, at the rate limit of each carrier."""

import asyncio
import logging
from collections.abc import Callable, Mapping
from datetime import datetime, timedelta

from sqlalchemy import Engine
from sqlalchemy.orm import Session
from tenacity import AsyncRetrying, RetryCallState, retry_if_exception, wait_fixed

from bot.channels.channel import Channel, SendOutcome, SendResult
from bot.channels.outcome import failed
from bot.channels.send_error import SEND_ERRORS, SendError, Tell
from bot.channels.sms.segments import segments
from bot.channels.traits import ChannelTraits, RateLimit
from bot.delivery.claims import Claimed, claim
from bot.delivery.outbox import Planned, complete
from bot.delivery.outcomes import apply_outcome
from bot.delivery.rate_limit import AHEAD, free_again, spaced_from
from bot.delivery.rules import LEASE, SEND_WITHIN
from bot.delivery.sms_budget import SmsBudget
from bot.monitoring import Counted, beat, count, sent_name
from bot.program_log import log_of
from scheduling.records.engine import is_fault_of_database, reading, writing

log = log_of(__name__)

Clock = Callable[[], datetime]
"""Gives the present instant, aware, in UTC."""

AT_ONCE = 16
"""How many sends may be under way, so that a slow one holds up nobody else."""

LOOK_AGAIN_SECONDS = 0.25
"""How soon something new is looked for while sends are under way."""

MARK_AGAIN_SECONDS = 0.5
"""How soon it is tried again to mark how a send ended, when the database cannot be written."""

_SLACK = LEASE - SEND_WITHIN


def _limits_of(channels: Mapping[str, Channel]) -> dict[str, RateLimit]:
    limits = {name: channel.traits.rate_limit for name, channel in channels.items()}
    return {name: limit for name, limit in limits.items() if limit is not None}


def _always() -> bool:
    return True


class Sender:
    """Claims, sends and marks; its rounds may run side by side.

    Args:
        channels: the running channels by name; messages of others stay.
        rate_limits: how fast each carrier lets us send; None for what the channels say.
        sms_budget: how many segments of SMS a month has; None for no end of them.
    """

    def __init__(
        self,
        engine: Engine,
        channels: Mapping[str, Channel],
        clock: Clock,
        rate_limits: Mapping[str, RateLimit] | None = None,
        sms_budget: SmsBudget | None = None,
    ) -> None:
        self._engine = engine
        self._channels = channels
        self._clock = clock
        self._rate_limits = _limits_of(channels) if rate_limits is None else rate_limits
        self._sms_budget = sms_budget
        self._last_begun: dict[str, float] = {}
        self._in_hand: set[int] = set()
        self._closing = False

    def close(self) -> None:
        """Let the marks of ended sends be tried once more, and then no more than that."""
        self._closing = True

    def claim_planned(self, session: Session, planned: Planned) -> Claimed | None:
        """Claim an answer in the transaction that has just planned it, if its turn has come."""
        found = claim(
            session,
            self._channels,
            self._clock(),
            most=1,
            only=planned.id,
            rate_limits=self._rate_limits,
        )
        return found[0] if found else None

    async def round(
        self, only_to: str | None = None, going_on: Callable[[], bool] = _always
    ) -> None:
        """Send until nothing more may be sent now, or ``going_on`` says no.

        Each message is claimed just before its send, so that a crash leaves few in doubt.

        Args:
            only_to: an address, to leave all others' messages alone.
            going_on: asked before each claim; sends under way are ended all the same.
        """
        under_way: set[asyncio.Task[None]] = set()
        waited = False
        try:
            while going_on():
                claimed = await self._claim(only_to) if len(under_way) < AT_ONCE else None
                if claimed is not None:
                    await self._until_its_turn(claimed)
                    under_way.add(asyncio.create_task(self._carry(claimed)))
                    waited = False
                elif under_way:
                    under_way = await _some_ended(under_way)
                elif waited or not await self._slot_comes():
                    return
                else:
                    waited = True
        finally:
            await _all_ended(under_way)

    async def answer(self, address: str, first: Claimed | None) -> None:
        """Send what may be sent to one address now, one after the other.

        No task of its own for each, as a round makes it: somebody waits for this one. It is not to
        be cancelled, since a send that is cut off might be sent once more.

        Args:
            address: whose messages; all others' are left alone.
            first: what was claimed already, to be sent before anything else.
        """
        claimed = first or await self._claim(address)
        while claimed is not None:
            await self._until_its_turn(claimed)
            await self._carry(claimed)
            claimed = await self._claim(address)

    async def _claim(self, only_to: str | None) -> Claimed | None:
        found = await asyncio.to_thread(self._claim_one, only_to)
        return found[0] if found else None

    def _claim_one(self, only_to: str | None) -> list[Claimed]:
        with writing(self._engine) as session:
            return claim(
                session,
                self._channels,
                self._clock(),
                most=1,
                only_to=only_to,
                rate_limits=self._rate_limits,
                but_of=tuple(self._in_hand),
            )

    async def _slot_comes(self) -> bool:
        """Wait for a carrier's next slot, which answers put off; False where none is taken."""
        early = await asyncio.to_thread(self._until_free)
        if early is not None:
            await asyncio.sleep(early.total_seconds())
        return early is not None

    def _until_free(self) -> timedelta | None:
        now = self._clock()
        with reading(self._engine) as session:
            at = free_again(session, self._rate_limits, now)
        return None if at is None else at - now

    async def _until_its_turn(self, message: Claimed) -> None:
        """Wait for the turn that was given; after a stall, not shorter after the last send."""
        # Never longer than was given, whatever was done to the clock meanwhile.
        early = min(message.send_at - self._clock(), AHEAD).total_seconds()
        if early > 0:
            await asyncio.sleep(early)
        rate_limit = self._rate_limits.get(message.channel)
        if rate_limit is None:
            return
        loop = asyncio.get_running_loop()
        while (last := self._last_begun.get(message.channel)) is not None and (
            (left := last + rate_limit.each.total_seconds() - loop.time()) > 0
        ):
            await asyncio.sleep(left)
        self._last_begun[message.channel] = spaced_from(last, rate_limit, loop.time())

    async def _carry(self, message: Claimed) -> None:
        self._in_hand.add(message.id)
        try:
            outcome = await self._send(message)
            _tell_operator(message, outcome)
            await self._until_marked(message, outcome)
        finally:
            self._in_hand.discard(message.id)

    async def _until_marked(self, message: Claimed, outcome: SendOutcome) -> None:
        """Mark how a send ended, for as long as the database is locked or full.

        Unmarked, it would be taken for lost with its lease's end, and be sent a second time.
        """

        def tell(_tried: RetryCallState) -> None:
            log.warning("a send could not be marked yet", number=message.id)

        again = retry_if_exception(lambda error: is_fault_of_database(error) and not self._closing)
        pause = wait_fixed(MARK_AGAIN_SECONDS)
        retrying = AsyncRetrying(retry=again, wait=pause, before_sleep=tell, reraise=True)
        await retrying(asyncio.to_thread, self._mark, message, outcome)

    async def _send(self, message: Claimed) -> SendOutcome:
        if self._clock() > message.send_at + _SLACK:
            # Another worker might take it before this send would end.
            return failed(SendError.TURN_PASSED, wait=timedelta(0))
        if message.is_gone:
            # It goes on over the person's next channel, and the carrier is not asked once more.
            return SendOutcome(SendResult.UNREACHABLE, said="the address took no messages since")
        if self._sms_budget is not None and await asyncio.to_thread(
            self._is_held_back, self._sms_budget, message
        ):
            return failed(SendError.USED_UP)
        try:
            async with asyncio.timeout(SEND_WITHIN.total_seconds()):
                return await self._channels[message.channel].send(message.outgoing)
        except TimeoutError:
            said = f"no answer within {SEND_WITHIN.total_seconds():g} s"
            return SendOutcome(SendResult.UNKNOWN, said=said, error=SendError.NO_ANSWER)
        except Exception as error:  # noqa: BLE001 - one bad message must not stop the round
            said = f"{type(error).__name__}: {error}"
            return SendOutcome(SendResult.UNKNOWN, said=said, error=SendError.ODD_ANSWER)

    def _is_held_back(self, sms_budget: SmsBudget, message: Claimed) -> bool:
        with reading(self._engine) as session:
            return sms_budget.holds_back(session, message.channel, message.purpose, self._clock())

    def _mark(self, message: Claimed, outcome: SendOutcome) -> None:
        now = self._clock()
        with writing(self._engine) as session:
            row = complete(session, message, outcome, now)
            if row is not None:
                apply_outcome(session, row, message, outcome, now, self._channels)
        _tell(message, outcome, now)
        _count_segments(message, outcome, self._channels[message.channel].traits)


async def _some_ended(under_way: set[asyncio.Task[None]]) -> set[asyncio.Task[None]]:
    """Wait until a send ends, or a moment; gives those still under way."""
    done, left = await asyncio.wait(
        under_way, timeout=LOOK_AGAIN_SECONDS, return_when=asyncio.FIRST_COMPLETED
    )
    for task in done:
        task.result()
    return left


async def _all_ended(under_way: set[asyncio.Task[None]]) -> None:
    """Let every send under way come to its end; the first error among them is raised."""
    ends = await asyncio.gather(*under_way, return_exceptions=True)
    for end in ends:
        if isinstance(end, BaseException):
            raise end


def _tell_operator(message: Claimed, outcome: SendOutcome) -> None:
    facts = None if outcome.error is None else SEND_ERRORS[outcome.error]
    if facts is not None and facts.tell is Tell.OPERATOR:
        log.error(facts.words, number=message.id, channel=message.channel)


def _tell(message: Claimed, outcome: SendOutcome, now: datetime) -> None:
    """Let the log, the counts and the signs of life know how a send ended."""
    count(Counted.SENDS, channel=message.channel, result=outcome.result)
    sent = outcome.result is SendResult.SENT
    if sent:
        beat(sent_name(message.channel), now)
    # The carrier's words stay with the row: an error of our own might repeat the message's.
    log.log(
        logging.INFO if sent else logging.WARNING,
        "a message was sent" if sent else "a message was not sent",
        number=message.id,
        channel=message.channel,
        attempt=message.attempt,
        result=str(outcome.result),
        error=None if sent else str(outcome.error or outcome.result),
        wait_seconds=None if outcome.wait is None else outcome.wait.total_seconds(),
    )


def _count_segments(message: Claimed, outcome: SendOutcome, traits: ChannelTraits) -> None:
    """Count what the carrier charges for."""
    if traits.is_charged and outcome.result is SendResult.SENT:
        number = segments(message.outgoing.text)
        count(Counted.SEGMENTS, number, carrier=traits.carrier or traits.name)


async def deliver_all(
    engine: Engine, channels: Mapping[str, Channel], clock: Clock, only_to: str | None = None
) -> None:
    """Send whatever may be sent now, or only what goes to one address."""
    await Sender(engine, channels, clock).round(only_to)
