"""The channel of texts through a modem's folders."""

import asyncio
import hashlib
from dataclasses import replace
from datetime import timedelta

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
from bot.channels.modem.folders import ModemFolders, Received, given_up, put_out, received
from bot.channels.outcome import failed
from bot.channels.reports import Delivery, DeliveryReport, Report, unheard
from bot.channels.send_error import SendError
from bot.channels.sms.phone_number import international, is_number
from bot.channels.traits import SMS
from bot.program_log import log_of

log = log_of(__name__)

LOOK_AGAIN = timedelta(seconds=2)
"""How often the folders are looked through."""


class ModemChannel:
    """Texts through the folders that the daemon watches.

    A message is in the daemon's hands once its file lies in the outbox; only that it failed is
    reported later, since the daemon's folders do not tell what phones got.

    Args:
        region: the land (ISO 3166, "US") whose numbers the network shows without a +.
        look_again: how often the folders are looked through.
    """

    traits = replace(SMS, carrier="modem")

    def __init__(
        self,
        folders: ModemFolders,
        region: str | None = None,
        report: Report = unheard,
        clock: Clock = present,
        look_again: timedelta = LOOK_AGAIN,
    ) -> None:
        self._folders = folders
        self._region = region
        self._report = report
        self._clock = clock
        self._look_again = look_again
        self._reported: set[str] = set()

    async def listen(self, receive: Receive) -> None:
        """Hand every message in to ``receive`` until cancelled; its files go once it is stored.

        Raises:
            ChannelBroken: a folder is not there.
        """
        missing = await asyncio.to_thread(self._folders.missing)
        if missing is not None:
            raise ChannelBroken(f"the modem's folder {missing} is not there")
        while True:
            try:
                await self._look(receive)
            except Exception as error:  # noqa: BLE001 - tried again with the next look
                log.warning("a look at the modem failed", error=type(error).__name__)
            await asyncio.sleep(self._look_again.total_seconds())

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Put one message out; the daemon cuts a long one."""
        if not outgoing.text.strip():
            return failed(SendError.BLANK)
        if not is_number(outgoing.address):
            return failed(SendError.NO_ADDRESS, f"{outgoing.address!r} is not a phone number")
        own = modem_message_id(outgoing)
        try:
            await asyncio.to_thread(
                put_out, self._folders, outgoing.address, outgoing.text, own, self._clock()
            )
        except OSError as error:
            return failed(SendError.NO_CONNECTION, f"the modem's outbox: {error.strerror}")
        return SendOutcome(SendResult.SENT, carrier_id=own)

    async def close(self) -> None:
        """Nothing to let go of."""

    async def _look(self, receive: Receive) -> None:
        for message in await asyncio.to_thread(self._received):
            try:
                await self._hand_on(message, receive)
            except Exception as error:  # noqa: BLE001 - tried again with the next look
                log.warning("a message was not taken in", error=type(error).__name__)
        for own in await asyncio.to_thread(lambda: list(given_up(self._folders))):
            if own not in self._reported:
                await self._report(self._failure(own))
                self._reported.add(own)

    def _received(self) -> list[Received]:
        return list(received(self._folders, self._clock()))

    async def _hand_on(self, message: Received, receive: Receive) -> None:
        sender = international(message.sender, self._region)
        if sender is None:
            log.info("left out a message that nobody can answer", channel=SMS.name)
        else:
            await receive(await asyncio.to_thread(_message_in, message, sender))
        for file in message.files:
            await asyncio.to_thread(file.unlink)

    def _failure(self, own: str) -> DeliveryReport:
        return DeliveryReport(
            SMS.name, own, Delivery.FAILED, self._clock(), error=SendError.CARRIER_FAILED
        )


def modem_message_id(outgoing: OutgoingMessage) -> str:
    """Name a message: alike for every try of it, and for no other."""
    what = "\0".join([outgoing.once, outgoing.address, outgoing.text])
    return hashlib.sha256(what.encode()).hexdigest()[:24]


def _message_in(message: Received, sender: str) -> IncomingMessage:
    text = message.text()
    words = hashlib.sha256(text.encode()).hexdigest()[:12]
    return IncomingMessage(SMS.name, sender, f"modem:{message.name}:{words}", text, message.at)
