"""The channel of texts over SMPP."""

import asyncio
from dataclasses import replace
from datetime import timedelta
from functools import partial
from typing import Any

from smpplib import consts

from bot.channels.channel import (
    ChannelBroken,
    Clock,
    IncomingMessage,
    OutgoingMessage,
    Receive,
    SendOutcome,
    SendResult,
    present,
)
from bot.channels.outcome import failed
from bot.channels.reports import DeliveryReport, Report, unheard
from bot.channels.send_error import SendError
from bot.channels.smpp.link import Link, LinkBrokenError, RefusedError, SmppAccount
from bot.channels.smpp.outgoing import error_of_status, packets
from bot.channels.smpp.smpp_incoming import DeliveredText, Repeats, read_delivery
from bot.channels.sms.concat_store import LongMessage, PartStore
from bot.channels.sms.phone_number import is_number
from bot.channels.traits import SMS
from bot.program_log import log_of

log = log_of(__name__)

SWEEP_EVERY = timedelta(minutes=1)
"""How often messages with missing parts are looked for."""


class SmppChannel:
    """Texts over a line to a message centre; a long message goes in parts that we cut.

    Whoever listens has a line that carries both ways; who only sends opens one for that.

    Args:
        parts: keeps parts of long messages in.
        report: takes delivery receipts; a message in parts has a receipt for each.
        answer_within: how long the centre may take to answer.
        try_again: how long to wait after the line broke.

    Raises:
        ChannelBroken: the settings cannot be right.
    """

    traits = replace(SMS, carrier="smpp")

    def __init__(
        self,
        account: SmppAccount,
        parts: PartStore,
        report: Report = unheard,
        clock: Clock = present,
        answer_within: timedelta = timedelta(seconds=7),
        try_again: timedelta = timedelta(seconds=10),
    ) -> None:
        if not (account.login.strip() and account.sender.strip()):
            raise ChannelBroken("SMPP needs a login, a password and a sender")
        self._account = account
        self._parts = parts
        self._report = report
        self._clock = clock
        self._answer_within = answer_within
        self._try_again = try_again
        self._repeats = Repeats()
        self._receive: Receive | None = None
        self._link: Link | None = None
        self._lines = 0
        self._opening = asyncio.Lock()

    async def listen(self, receive: Receive) -> None:
        """Hand every message in to ``receive`` until cancelled.

        The centre is answered well only after ``receive`` returned, or the part was kept.

        Raises:
            ChannelBroken: our login or password is refused.
        """
        self._receive = receive
        sweeping = asyncio.create_task(self._sweep_on())
        try:
            while True:
                await self._listen_once()
                await asyncio.sleep(self._try_again.total_seconds())
        finally:
            self._receive = None
            sweeping.cancel()
            await asyncio.gather(sweeping, return_exceptions=True)

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Send every part of a message; ``carrier_id`` names each, with spaces between."""
        if not outgoing.text.strip():
            return failed(SendError.BLANK)
        if not is_number(outgoing.address):
            return failed(SendError.NO_ADDRESS, f"{outgoing.address!r} is not a phone number")
        try:
            link = await self._open_link()
            names = [
                (await link.ask("submit_sm", **packet)).message_id.decode("latin-1")
                for packet in packets(outgoing, self._account.sender)
            ]
        except RefusedError as error:
            return failed(error_of_status(error.status), str(error))
        except LinkBrokenError as error:
            return failed(
                SendError.NO_ANSWER if error.left else SendError.NO_CONNECTION, str(error)
            )
        except ValueError as error:
            return failed(SendError.REFUSED, str(error))
        return SendOutcome(SendResult.SENT, carrier_id=" ".join(names))

    async def close(self) -> None:
        """Let go of the line."""
        if self._link is not None:
            await self._link.close()

    async def _listen_once(self) -> None:
        try:
            link = await self._open_link(both_ways=True)
        except RefusedError as error:
            if error_of_status(error.status) is SendError.TOKEN_REFUSED:
                raise ChannelBroken("the message centre refuses our login or password") from None
            log.warning("the centre would not have us, trying again", status=error.status)
        except LinkBrokenError as error:
            log.warning("the centre was not reached, trying again", error=str(error))
        else:
            await link.broken.wait()
            await link.close()

    async def _open_link(self, *, both_ways: bool = False) -> Link:
        """Give the line that is open, or open one."""
        async with self._opening:
            if self._link is not None and not self._link.broken.is_set() and not both_ways:
                return self._link
            if self._link is not None:
                await self._link.close()
            self._link = None
            listens = both_ways or self._receive is not None
            self._lines += 1
            take = partial(self._take, self._lines) if listens else None
            link = Link(self._account, self._answer_within, take)
            try:
                await link.open()
            except (LinkBrokenError, RefusedError):
                await link.close()
                raise
            self._link = link
            return link

    async def _take(self, line: int, packet: Any) -> int:
        """Take a deliver_sm; its status tells the centre to keep what was not stored."""
        try:
            read = read_delivery(packet, self._account.region, self._clock())
        except Exception as error:  # noqa: BLE001 - whatever it was, it would come up for ever
            log.warning("left out an unreadable delivery", error=type(error).__name__)
            return int(consts.SMPP_ESME_ROK)
        try:
            await self._take_read(line, read)
        except Exception as error:  # noqa: BLE001 - whatever went wrong, it is not stored
            log.warning("a delivery was not stored", error=type(error).__name__)
            return int(consts.SMPP_ESME_RX_T_APPN)
        return int(consts.SMPP_ESME_ROK)

    async def _take_read(self, line: int, read: DeliveredText | DeliveryReport | None) -> None:
        if isinstance(read, DeliveryReport):
            await self._report(read)
        elif read is not None:
            await self._take_words(line, read)

    async def _take_words(self, line: int, words: DeliveredText) -> None:
        now = self._clock()
        if words.part is None:
            own = self._repeats.id_of(words.sender, words.octets, line, now)
            text = words.octets.decode("utf-16-be", errors="replace")
            await self._hand_on(IncomingMessage(SMS.name, words.sender, own, text, now))
            self._repeats.answered(own, self._clock())
            return
        whole = await self._parts.keep(words.sender, words.part, words.octets, now)
        if whole is not None:
            await self._hand_on_joined(whole)

    async def _hand_on_joined(self, message: LongMessage) -> None:
        """Hand a long message on; one whose parts never came is empty, so that it is answered."""
        text = (message.octets or b"").decode("utf-16-be", errors="replace")
        sender = message.whole.sender
        await self._hand_on(IncomingMessage(SMS.name, sender, message.id, text, message.first_at))
        await self._parts.forget(message.whole)

    async def _hand_on(self, message: IncomingMessage) -> None:
        if self._receive is None:
            raise LinkBrokenError("nobody listens", left=False)
        await self._receive(message)

    async def _sweep_on(self) -> None:
        while True:
            try:
                for message in await self._parts.done_waiting(self._clock()):
                    await self._hand_on_joined(message)
            except Exception as error:  # noqa: BLE001 - tried again with the next sweep
                log.warning("parts were not looked through", error=type(error).__name__)
            await asyncio.sleep(SWEEP_EVERY.total_seconds())
