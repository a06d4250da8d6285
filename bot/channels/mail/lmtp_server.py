"""Where the mail server hands e-mails in: LMTP (RFC 2033), on this machine unless told otherwise.

The mail server is told that it may forget an e-mail only after that was stored; else it keeps it
and comes again. No mailbox is fetched from: nothing would tell what was stored of what was fetched.
"""

import asyncio
from collections.abc import Awaitable, Callable
from typing import Any

from aiosmtpd.lmtp import LMTP
from aiosmtpd.smtp import Envelope

from bot.program_log import log_of

log = log_of(__name__)

MOST_OCTETS = 262_144
"""An answer of a few words, its quoted letter, and what a mail program puts around them."""

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
