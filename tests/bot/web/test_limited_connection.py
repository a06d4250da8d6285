"""What the server lets a connection do: say its request soon, and not be one of too many."""

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager, suppress

import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from bot.settings.address import HttpAddress
from bot.web import limited_connection
from bot.web.server import listening

HALF = b"GET /slow HTTP/1.1\r\nHost: a\r\nX-a: "
WHOLE = HALF + b"b\r\n\r\n"


Line = tuple[asyncio.StreamReader, asyncio.StreamWriter]


async def _slow(_request: Request) -> Response:
    await asyncio.sleep(0.4)
    return PlainTextResponse("well")


class Lines:
    """Connections to the server."""

    def __init__(self, address: HttpAddress) -> None:
        self._address = address
        self._lines: list[Line] = []

    async def say(self, words: bytes) -> Line:
        """Open one and say something over it; the server has a moment to hear it."""
        line = await asyncio.open_connection(self._address.host, self._address.port)
        self._lines.append(line)
        line[1].write(words)
        await asyncio.sleep(0.05)
        return line

    async def close(self) -> None:
        """Close them all."""
        for _reader, writer in self._lines:
            writer.close()
            with suppress(ConnectionError):
                await writer.wait_closed()


@asynccontextmanager
async def _lines() -> AsyncIterator[Lines]:
    app = Starlette(routes=[Route("/slow", _slow)])
    async with listening(app, HttpAddress("127.0.0.1", 0)) as address:
        lines = Lines(address)
        try:
            yield lines
        finally:
            await lines.close()


async def _rest(line: Line) -> bytes:
    """All that comes until the other side closes."""
    try:
        return await asyncio.wait_for(line[0].read(), 5)
    except ConnectionError:
        return b""


async def _answer(line: Line) -> bytes:
    """One whole answer."""
    head = await asyncio.wait_for(line[0].readuntil(b"\r\n\r\n"), 5)
    return head + await line[0].readexactly(len("well"))


def test_half_a_head_is_waited_for_only_so_long(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(limited_connection, "HEAD_SECONDS", 0.2)

    async def talk() -> bytes:
        async with _lines() as lines:
            return await _rest(await lines.say(HALF))

    assert asyncio.run(talk()) == b""


def test_an_answer_may_take_longer_than_a_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(limited_connection, "HEAD_SECONDS", 0.2)

    async def talk() -> bytes:
        async with _lines() as lines:
            return await _answer(await lines.say(WHOLE))

    assert asyncio.run(talk()).startswith(b"HTTP/1.1 200 OK\r\n")


def test_half_a_second_head_is_waited_for_only_so_long(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(limited_connection, "HEAD_SECONDS", 0.2)

    async def talk() -> bytes:
        async with _lines() as lines:
            line = await lines.say(WHOLE)
            await _answer(line)
            line[1].write(HALF)
            return await _rest(line)

    assert asyncio.run(talk()) == b""


def test_of_too_many_the_oldest_that_waits_is_dropped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(limited_connection, "MOST_OPEN", 3)

    async def talk() -> tuple[bytes, bytes, bytes]:
        async with _lines() as lines:
            answered = await lines.say(WHOLE)
            oldest = await lines.say(HALF)
            newer = await lines.say(HALF)
            newest = await lines.say(WHOLE)
            dropped = await _rest(oldest)
            newer[1].write(b"b\r\n\r\n")
            return dropped, await _answer(answered), await _answer(newer) + await _answer(newest)

    dropped, first, later = asyncio.run(talk())
    assert dropped == b""
    assert first.startswith(b"HTTP/1.1 200 OK\r\n")
    assert later.count(b"HTTP/1.1 200 OK\r\n") == 2


def test_nothing_says_what_answers() -> None:
    async def talk() -> bytes:
        async with _lines() as lines:
            return await _answer(await lines.say(WHOLE))

    assert b"server" not in asyncio.run(talk()).lower()
