"""The channel of e-mail.

The mail server hands e-mails in over LMTP (RFC 2033), on this machine unless told otherwise, and is
told that it may forget one only after that was stored; else it keeps it and comes again. No mailbox
is fetched from: nothing would tell what was stored of what was fetched.
"""

import asyncio
from collections.abc import Awaitable, Callable
from datetime import timedelta
from typing import Any

from aiosmtpd.lmtp import LMTP
from aiosmtpd.smtp import Envelope

from bot.channels.channel import (
    ChannelBroken,
    Clock,
    OutgoingMessage,
    Receive,
    SendOutcome,
    present,
)
from bot.channels.mail.mail_incoming import read_mail
from bot.channels.mail.mail_message import (
    MailAccount,
    compose_mail,
    hand_over,
    is_address,
    own_name,
)
from bot.channels.outcome import failed
from bot.channels.reports import DeliveryReport, Report, unheard
from bot.channels.send_error import SendError
from bot.channels.traits import MAIL
from bot.program_log import log_of

log = log_of(__name__)

MOST_OCTETS = 262_144
"""An answer of a few words, its quoted message, and what a mail program puts around them."""

WAIT_SECONDS = 60.0

TakeMail = Callable[[bytes], Awaitable[None]]


class _Handler:
    """Takes e-mails to our address."""

    def __init__(self, ours: str, take: TakeMail) -> None:
        self._ours = ours.lower()
        self._take = take

    async def handle_RCPT(  # noqa: N802 - the library's name
        self, _server: Any, _session: Any, envelope: Envelope, address: str, _options: list[str]
    ) -> str:
        """Take our own address, with or without a +detail."""
        name, _, domain = address.lower().rpartition("@")
        if f"{name.partition('+')[0]}@{domain}" != self._ours:
            return "550 5.1.1 no such mailbox"
        envelope.rcpt_tos.append(address)
        return "250 2.1.5 ok"

    async def handle_DATA(  # noqa: N802 - the library's name
        self, _server: Any, _session: Any, envelope: Envelope
    ) -> str:
        """Store an e-mail; the mail server keeps what was not stored."""
        content = envelope.content
        try:
            await self._take(content if isinstance(content, bytes) else (content or "").encode())
        except Exception as error:  # noqa: BLE001 - whatever went wrong, it is not stored
            log.warning("an e-mail was not stored", error=type(error).__name__)
            return "451 4.3.0 not now"
        return "250 2.0.0 taken"


async def open_door(host: str, port: int, ours: str, take: TakeMail) -> asyncio.Server:
    """Begin to take e-mails in.

    Raises:
        OSError: the address is taken or not ours.
    """
    loop = asyncio.get_running_loop()
    handler = _Handler(ours, take)

    def protocol() -> LMTP:
        return LMTP(
            handler,
            data_size_limit=MOST_OCTETS,
            enable_SMTPUTF8=True,
            hostname="yardbell",
            ident="Yardbell",
            timeout=WAIT_SECONDS,
            loop=loop,
        )

    return await loop.create_server(protocol, host, port)


SHORTEST_KEY = 16
"""Letters of the secret that answers are known by."""


class MailChannel:
    """E-mail through the owner's mail server; answers are handed in over LMTP.

    Args:
        report: takes notices of messages that failed.
        answer_within: how long the mail server may take for each answer.

    Raises:
        ChannelBroken: the settings cannot be right.
    """

    traits = MAIL

    def __init__(
        self,
        account: MailAccount,
        report: Report = unheard,
        clock: Clock = present,
        answer_within: timedelta = timedelta(seconds=7),
    ) -> None:
        if not is_address(account.sender):
            raise ChannelBroken(f"{account.sender!r} is no address that e-mail can come from")
        if len(account.key) < SHORTEST_KEY:
            raise ChannelBroken(f"the key of e-mail needs {SHORTEST_KEY} letters or more")
        self._account = account
        self._report = report
        self._clock = clock
        self._answer_within = answer_within
        self._receive: Receive | None = None
        self.port: int | None = None

    async def listen(self, receive: Receive) -> None:
        """Hand every answer in to ``receive`` until cancelled.

        The mail server is told to forget an e-mail only after ``receive`` returned.

        Raises:
            ChannelBroken: the address to listen on is taken or not ours.
        """
        if self._account.listen is None:
            await asyncio.get_running_loop().create_future()
            return
        self._receive = receive
        host, port = self._account.listen
        try:
            server = await open_door(host, port, self._account.sender, self._take)
        except OSError as error:
            raise ChannelBroken(
                f"e-mail cannot be taken in at {host}:{port}: {error.strerror}"
            ) from None
        self.port = int(server.sockets[0].getsockname()[1])
        async with server:
            await server.serve_forever()

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Hand one message to the mail server."""
        if not outgoing.text.strip():
            return failed(SendError.BLANK)
        if not is_address(outgoing.address):
            return failed(SendError.NO_ADDRESS, f"{outgoing.address!r} is not an e-mail address")
        mail = compose_mail(outgoing, self._account, self._clock())
        seconds = self._answer_within.total_seconds()
        return await asyncio.to_thread(hand_over, mail, self._account, own_name(outgoing), seconds)

    async def close(self) -> None:
        """Nothing to let go of: each message has a line of its own."""

    async def _take(self, octets: bytes) -> None:
        read = await asyncio.to_thread(read_mail, octets, self._account.key, self._clock())
        if isinstance(read, DeliveryReport):
            await self._report(read)
        elif read is not None and self._receive is not None:
            await self._receive(read)
