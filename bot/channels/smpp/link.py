"""A line to a message centre: requests and answers by number, in both directions at once.

SMPP Protocol Specification v3.4: 4.1 (binding), 4.4 (submit_sm), 4.6 (deliver_sm), 4.11
(enquire_link). Packets are written and read by smpplib; its own client waits for one answer at a
time. With it what the owner sets for this carrier.
"""

import asyncio
import contextlib
import ssl
import struct
from collections.abc import Awaitable, Callable
from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any

from smpplib import consts, smpp

from bot.program_log import log_of

log = log_of(__name__)


@dataclass(frozen=True)
class SmppAccount:
    """A contract with a message centre.

    Attributes:
        host: its name or address.
        port: as a rule 2775, or 3550 with TLS.
        login: what it calls system_id.
        password: of at most eight letters, as the protocol has it.
        sender: our number (+12025550100) or short code.
        tls: whether the line is encrypted; without it, only over a line of one's own.
        region: the land (ISO 3166, "US") whose numbers come without a +; None where all are whole.
    """

    host: str
    port: int
    login: str
    password: str = field(repr=False)
    sender: str
    tls: bool = True
    region: str | None = None


LONGEST_PACKET = 70_000
"""Octets; a packet carries one message, at most 64 KiB of it."""

ASK_EVERY = timedelta(seconds=30)
"""How often the other end is asked whether it is there."""

Deliver = Callable[[Any], Awaitable[int]]
"""Takes a deliver_sm, and gives the status that it is answered with."""


class LinkBrokenError(Exception):
    """The line broke, or the answer did not come in time.

    ``left`` tells whether the request may have reached the other end.
    """

    def __init__(self, said: str, *, left: bool) -> None:
        super().__init__(said)
        self.left = left


class RefusedError(Exception):
    """The other end answered with an error; ``status`` is its number."""

    def __init__(self, status: int) -> None:
        super().__init__(f"{status:#010x} {consts.DESCRIPTIONS.get(status, '')}".strip())
        self.status = status


class Link:
    """A bound line; ``deliver`` takes what comes in over it, or is None for sending only."""

    def __init__(
        self, account: SmppAccount, answer_within: timedelta, deliver: Deliver | None
    ) -> None:
        self._account = account
        self._answer_within = answer_within.total_seconds()
        self._deliver = deliver
        self._answers: dict[int, asyncio.Future[Any]] = {}
        self._tasks: set[asyncio.Task[None]] = set()
        self._writer: asyncio.StreamWriter | None = None
        self._bound = False
        self.sequence = 0
        self.broken = asyncio.Event()

    def next_sequence(self) -> int:
        """Count requests; the packets ask for it."""
        self.sequence = self.sequence % 0x7FFFFFFF + 1
        return self.sequence

    async def open(self) -> None:
        """Connect and bind.

        Raises:
            LinkBrokenError: nobody answers there.
            RefusedError: our login is refused.
        """
        account = self._account
        secured = ssl.create_default_context() if account.tls else None
        try:
            async with asyncio.timeout(self._answer_within):
                reader, self._writer = await asyncio.open_connection(
                    account.host, account.port, ssl=secured
                )
        except (OSError, TimeoutError) as error:
            raise LinkBrokenError(type(error).__name__, left=False) from None
        self._begin(self._read_on(reader))
        both = "bind_transmitter" if self._deliver is None else "bind_transceiver"
        await self.ask(
            both, system_id=account.login, password=account.password, interface_version=0x34
        )
        self._bound = True
        self._begin(self._ask_on())

    async def ask(self, command: str, **fields: Any) -> Any:
        """Send a request and give its answer.

        Raises:
            LinkBrokenError: no answer came.
            RefusedError: the answer is an error.
        """
        if self._writer is None or self.broken.is_set():
            raise LinkBrokenError("the line is down", left=False)
        packet = smpp.make_pdu(command, client=self, **fields)
        answer = self._answers[packet.sequence] = asyncio.get_running_loop().create_future()
        try:
            self._write(packet)
            async with asyncio.timeout(self._answer_within):
                answered = await answer
        except (OSError, TimeoutError) as error:
            raise LinkBrokenError(type(error).__name__, left=True) from None
        finally:
            self._answers.pop(packet.sequence, None)
        if answered.status != consts.SMPP_ESME_ROK:
            raise RefusedError(answered.status)
        return answered

    async def close(self) -> None:
        """Unbind, if anybody still answers, and let go of the line."""
        if self._bound:
            with contextlib.suppress(LinkBrokenError, RefusedError):
                await self.ask("unbind")
        self._break()
        for task in tuple(self._tasks):
            task.cancel()
        await asyncio.gather(*self._tasks, return_exceptions=True)
        if self._writer is not None:
            with contextlib.suppress(OSError):
                await self._writer.wait_closed()

    def _begin(self, work: Any) -> None:
        task = asyncio.create_task(work)
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)

    def _break(self) -> None:
        self.broken.set()
        for answer in self._answers.values():
            if not answer.done():
                answer.set_exception(ConnectionError())
        if self._writer is not None:
            self._writer.close()

    def _write(self, packet: Any) -> None:
        assert self._writer is not None  # noqa: S101 - nothing is written before it is open
        self._writer.write(packet.generate())

    async def _read_on(self, reader: asyncio.StreamReader) -> None:
        try:
            while True:
                head = await reader.readexactly(4)
                (length,) = struct.unpack(">L", head)
                if not 16 <= length <= LONGEST_PACKET:
                    raise ValueError("a packet of no possible length")
                self._take(head + await reader.readexactly(length - 4))
        except (OSError, EOFError, ValueError) as error:
            log.info("the line broke", error=type(error).__name__)
        finally:
            self._break()

    def _take(self, octets: bytes) -> None:
        try:
            packet = smpp.parse_pdu(octets, client=self, allow_unknown_opt_params=True)
        except Exception as error:  # noqa: BLE001 - the library lets through whatever its parsing raises
            log.warning("left out an unreadable packet", error=type(error).__name__)
            return
        if packet.is_response():
            answer = self._answers.get(packet.sequence)
            if answer is not None and not answer.done():
                answer.set_result(packet)
        else:
            self._begin(self._answer(packet))

    async def _answer(self, packet: Any) -> None:
        if packet.command == "deliver_sm":
            status = consts.SMPP_ESME_RX_T_APPN
            if self._deliver is not None:
                status = await self._deliver(packet)
            self._reply(packet, "deliver_sm_resp", status)
        elif packet.command == "enquire_link":
            self._reply(packet, "enquire_link_resp", consts.SMPP_ESME_ROK)
        elif packet.command == "unbind":
            self._reply(packet, "unbind_resp", consts.SMPP_ESME_ROK)
            self._break()

    def _reply(self, packet: Any, command: str, status: int) -> None:
        reply = smpp.make_pdu(command, client=self, status=status, sequence=packet.sequence)
        reply.sequence = packet.sequence
        with contextlib.suppress(OSError):
            self._write(reply)

    async def _ask_on(self) -> None:
        while not self.broken.is_set():
            await asyncio.sleep(ASK_EVERY.total_seconds())
            try:
                await self.ask("enquire_link")
            except (LinkBrokenError, RefusedError):
                self._break()
