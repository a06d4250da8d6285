"""The bot library over its own connections: what it hears, whatever goes wrong."""

import asyncio
from collections.abc import Iterator
from typing import Any

import httpx
import pytest
from aiohttp import web
from telegram import Bot
from telegram.error import NetworkError, TelegramError, TimedOut

from bot.channels.channel import SendResult
from bot.channels.telegram.retry import BotApiRequest
from bot.channels.telegram.telegram_outcome import outcome_of
from deploy.standins.bot_api_faults import Drop, Fault
from deploy.standins.bot_api_standin import TOKEN, BotApiStandin, running_standin
from deploy.standins.free_port import free_port
from deploy.standins.local_http import serving

WORDS = "River: 4b eggs & sealed brood, 100 % åpen\nRidge + more = later; 5a?"


@pytest.fixture
def api() -> Iterator[BotApiStandin]:
    with running_standin() as api:
        yield api


def said(url: str, text: str = WORDS, *, silent: float = 5.0, asks: int = 1) -> list[Any]:
    """What the library gives or raises for each of some messages sent one after the other."""

    async def run() -> list[Any]:
        request = BotApiRequest(silent)
        bot = Bot(TOKEN, base_url=f"{url}/bot", request=request)
        heard: list[Any] = []
        for _ in range(asks):
            try:
                heard.append(await bot.send_message(5001, text))
            except TelegramError as error:
                heard.append(error)
        await request.shutdown()
        return heard

    return asyncio.run(run())


def test_a_text_arrives_as_it_was_written(api: BotApiStandin) -> None:
    (message,) = said(api.url)
    assert message.message_id == 1
    assert [sent.text for sent in api.sent] == [WORDS]


def test_a_server_that_is_silent_for_too_long_may_have_taken_it(api: BotApiStandin) -> None:
    api.next_send(Fault(delay=1.0))
    (error,) = said(api.url, silent=0.2)
    assert isinstance(error, TimedOut)
    assert isinstance(error.__cause__, httpx.ReadTimeout)
    assert len(api.sent) == 1


@pytest.mark.parametrize("drop", Drop)
def test_a_connection_that_breaks_is_not_tried_again_by_itself(
    api: BotApiStandin, drop: Drop
) -> None:
    api.next_send(Fault(drop=drop))
    (error,) = said(api.url)
    assert isinstance(error, NetworkError)
    assert not isinstance(error.__cause__, httpx.ConnectError)
    assert len(api.sent) == (1 if drop is Drop.AFTER_EFFECT else 0)


def test_on_the_same_connection_a_broken_answer_is_not_asked_for_twice(api: BotApiStandin) -> None:
    # An idle connection is where a client would be tempted to send once more.
    api.next_send(Fault(), Fault(drop=Drop.AFTER_EFFECT))
    first, second = said(api.url, asks=2)
    assert first.message_id == 1
    assert isinstance(second, NetworkError)
    assert len(api.sent) == 2


@pytest.mark.parametrize("status", [302, 307])
def test_a_letter_that_is_sent_elsewhere_is_not_sent_after(api: BotApiStandin, status: int) -> None:
    async def elsewhere(request: web.Request) -> web.Response:
        return web.Response(status=status, headers={"Location": f"{api.url}{request.path}"})

    app = web.Application()
    app.router.add_post("/{path:.*}", elsewhere)
    with serving(app) as url:
        (error,) = said(url)
    assert isinstance(error, TelegramError)
    assert api.calls == []


def test_where_nobody_listens_it_did_not_leave_and_no_word_tells_the_token() -> None:
    (error,) = said(f"http://127.0.0.1:{free_port()}")
    assert isinstance(error.__cause__, httpx.ConnectError)
    assert str(error).startswith("httpx.ConnectError")
    assert TOKEN not in str(error)


@pytest.mark.parametrize("address", ["http://[no address", "http://127.0.0.1:none", "no.address"])
def test_an_address_that_is_none_is_told_without_the_token(address: str) -> None:
    (error,) = said(address)
    assert outcome_of(error).result is SendResult.LATER
    assert TOKEN not in str(error)


def test_once_let_go_of_it_connects_to_nobody_until_it_is_ready_again(api: BotApiStandin) -> None:
    async def run() -> int:
        request = BotApiRequest(5.0)
        await request.shutdown()
        with pytest.raises(RuntimeError, match="not initialized"):
            await request.do_request(f"{api.url}/bot{TOKEN}/getMe", "POST")
        await request.initialize()
        status, _ = await request.do_request(f"{api.url}/bot{TOKEN}/getMe", "POST")
        await request.shutdown()
        return status

    assert asyncio.run(run()) == 200
