"""What may go wrong on the line itself, with a server that does just that."""

import asyncio
import struct
from collections.abc import Awaitable, Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.channels.channel import ChannelBroken, OutgoingMessage, SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.channels.smpp.channel import SmppChannel
from bot.channels.smpp.link import SmppAccount
from bot.channels.sms.concat_store import DatabaseParts
from deploy.standins.databases import copied_file
from deploy.standins.message_centre import SENDER
from scheduling.records.engine import open_engine
from tests.bot.channels.taking_in import TakenIn

ADA = "+12025550123"
BIND_RESP, SUBMIT, DELIVER, GENERIC_NACK = 0x80000009, 0x00000004, 0x00000005, 0x80000000
AT = datetime(2027, 5, 12, 10, 30, tzinfo=UTC)

Serve = Callable[[asyncio.StreamReader, asyncio.StreamWriter], Awaitable[None]]


def packet(command: int, sequence: int, status: int = 0, body: bytes = b"") -> bytes:
    """A packet's octets: SMPP v3.4, 3.2."""
    return struct.pack(">LLLL", 16 + len(body), command, status, sequence) + body


async def read(reader: asyncio.StreamReader) -> tuple[int, int]:
    """A packet's command and number."""
    length, command, _, sequence = struct.unpack(">LLLL", await reader.readexactly(16))
    await reader.readexactly(length - 16)
    return command, sequence


async def bind(reader: asyncio.StreamReader, writer: asyncio.StreamWriter, status: int = 0) -> None:
    command, sequence = await read(reader)
    writer.write(packet(0x80000000 | command, sequence, status, b"centre\0" if not status else b""))
    await writer.drain()


def account(port: int) -> SmppAccount:
    return SmppAccount("127.0.0.1", port, "yardbell", "secret-word", SENDER, tls=False)


@pytest.fixture
def parts(made_once: Path, tmp_path: Path) -> DatabaseParts:
    return DatabaseParts(open_engine(copied_file(made_once, tmp_path)))


def with_server(
    serve: Serve, work: Callable[[int], Awaitable[SendOutcome | None]]
) -> SendOutcome | None:
    async def then_close(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        try:
            await serve(reader, writer)
        except (EOFError, OSError):
            pass
        finally:
            writer.close()

    async def run() -> SendOutcome | None:
        server = await asyncio.start_server(then_close, "127.0.0.1", 0)
        async with server:
            return await work(server.sockets[0].getsockname()[1])

    return asyncio.run(run())


def send_through(serve: Serve, parts: DatabaseParts) -> SendOutcome:
    async def work(port: int) -> SendOutcome:
        channel = SmppChannel(account(port), parts, answer_within=timedelta(seconds=1))
        outcome = await channel.send(OutgoingMessage(ADA, "4b eggs"))
        await channel.close()
        return outcome

    outcome = with_server(serve, work)
    assert outcome is not None
    return outcome


@pytest.mark.parametrize("status", [0x0D, 0x0E, 0x0F])
def test_a_refused_login_breaks_the_channel_in_one_line(parts: DatabaseParts, status: int) -> None:
    async def serve(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        await bind(reader, writer, status)

    async def work(port: int) -> None:
        channel = SmppChannel(account(port), parts)
        try:
            await channel.listen(TakenIn(AT).receive)
        finally:
            await channel.close()

    with pytest.raises(ChannelBroken, match="login or password") as refused:
        with_server(serve, work)
    assert "secret-word" not in str(refused.value)
    assert send_through(serve, parts).error is SendError.TOKEN_REFUSED


def test_a_line_that_is_cut_leaves_it_unknown(parts: DatabaseParts) -> None:
    async def serve(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        await bind(reader, writer)
        await read(reader)
        writer.close()

    outcome = send_through(serve, parts)
    assert (outcome.result, outcome.error) == (SendResult.UNKNOWN, SendError.NO_ANSWER)


@pytest.mark.parametrize(
    "noise",
    [
        b"HTTP/1.1 400 Bad Request\r\n\r\n",
        struct.pack(">L", 4),
        struct.pack(">L", 0x7FFFFFFF) + b"x",
        packet(0x0BADC0DE, 1),
        packet(DELIVER, 9, 0, b"\xff\xff"),
        packet(GENERIC_NACK, 77, 3),
        packet(0x80000004, 12345, 0, b"nobody asked\0"),
    ],
)
def test_noise_on_the_line_neither_ends_nor_hangs_the_program(
    parts: DatabaseParts, noise: bytes
) -> None:
    async def serve(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        await bind(reader, writer)
        writer.write(noise)
        command, sequence = await read(reader)
        while command != SUBMIT:
            command, sequence = await read(reader)
        writer.write(packet(0x80000000 | SUBMIT, sequence, 0, b"m1\0"))
        await writer.drain()
        await reader.read()

    outcome = send_through(serve, parts)
    assert outcome.result in (SendResult.SENT, SendResult.UNKNOWN, SendResult.LATER)


def test_a_server_that_never_answers_is_not_waited_for(parts: DatabaseParts) -> None:
    async def serve(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        await reader.read()

    outcome = send_through(serve, parts)
    assert outcome.result in (SendResult.UNKNOWN, SendResult.LATER)


@pytest.mark.parametrize("blank", [replace(account(1), login=" "), replace(account(1), sender="")])
def test_a_setting_that_is_blank_is_named_at_the_start(
    parts: DatabaseParts, blank: SmppAccount
) -> None:
    with pytest.raises(ChannelBroken, match="login, a password and a sender"):
        SmppChannel(blank, parts)
    assert "secret-word" not in repr(account(1))
