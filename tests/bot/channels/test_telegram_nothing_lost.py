"""Nothing that a person wrote is lost, whatever fails between Telegram and the store."""

import asyncio
import logging
from collections.abc import Iterator
from datetime import datetime

import pytest
from telegram import Update

from bot.channels.channel import ChannelBroken, IncomingMessage
from bot.channels.telegram import telegram_incoming
from bot.channels.telegram.telegram_incoming import message_from
from bot.program_log import private_formatter
from deploy.standins.bot_api_faults import (
    Drop,
    Fault,
    conflict,
    dropped,
    flood,
    gateway_page,
    server_error,
)
from deploy.standins.bot_api_standin import TOKEN, BotApiStandin, running_standin
from deploy.standins.free_port import free_port
from tests.bot.channels.telegram_listening import Desk, eventually, hear, listening, quick_channel

ADA = 5001


@pytest.fixture
def api() -> Iterator[BotApiStandin]:
    with running_standin() as standin:
        yield standin


def test_a_message_that_could_not_be_stored_is_handed_in_again(api: BotApiStandin) -> None:
    for text in ("4a eggs", "4b eggs", "4c eggs"):
        api.push_text(ADA, text)
    desk = Desk(failures=2)
    hear(api.url, 3, desk)
    assert desk.texts == ["4a eggs", "4b eggs", "4c eggs"]
    assert [message.text for message in desk.offered[:3]] == ["4a eggs"] * 3
    assert len(desk.offered) == 5


def test_nothing_is_confirmed_before_it_is_stored(api: BotApiStandin) -> None:
    pushed = api.push_text(ADA, "4a eggs")
    waiting: list[tuple[int, ...]] = []

    async def receive(message: IncomingMessage) -> None:
        waiting.append(api.unconfirmed)

    async def run() -> None:
        channel = quick_channel(api.url)
        task = asyncio.create_task(channel.listen(receive))
        await eventually(lambda: bool(waiting) and not api.unconfirmed)
        task.cancel()
        await channel.close()

    asyncio.run(run())
    assert waiting == [(pushed.update_id,)]


def test_what_was_fetched_but_not_stored_comes_again_after_a_crash(api: BotApiStandin) -> None:
    for text in ("4a eggs", "4b eggs", "4c eggs"):
        api.push_text(ADA, text)
    stored: list[str] = []

    async def run() -> None:
        in_hand = asyncio.Event()

        async def receive(message: IncomingMessage) -> None:
            if message.text == "4b eggs":
                in_hand.set()
                await asyncio.sleep(60)
            stored.append(message.text)

        channel = quick_channel(api.url)
        task = asyncio.create_task(channel.listen(receive))
        await in_hand.wait()
        task.cancel()
        await channel.close()

    asyncio.run(run())
    assert stored == ["4a eggs"]
    assert [message.text for message in hear(api.url, 3)] == ["4a eggs", "4b eggs", "4c eggs"]


@pytest.mark.parametrize(
    "fault",
    [
        server_error(),
        gateway_page(),
        Fault(body="<html>sign in to use this network</html>"),
        Fault(body='{"ok": true}'),
        Fault(body='{"ok": true, "result": [{"no_number": 1}]}'),
        dropped(Drop.BEFORE_EFFECT),
        dropped(Drop.AFTER_EFFECT),
        conflict(),
    ],
    ids=["500", "page", "portal", "no result", "no number", "cut", "cut late", "409"],
)
def test_a_failed_fetch_is_made_again(api: BotApiStandin, fault: Fault) -> None:
    api.push_text(ADA, "4a eggs")
    api.next_call("getUpdates", fault, fault)
    assert [message.text for message in hear(api.url, 1)] == ["4a eggs"]


def test_the_wait_that_telegram_asks_for_is_kept(api: BotApiStandin) -> None:
    api.push_text(ADA, "4a eggs")
    api.next_call("getUpdates", flood(1))
    desk = Desk()

    async def run() -> None:
        async with listening(api.url, desk):
            await eventually(lambda: "getUpdates" in api.calls)
            await asyncio.sleep(0.7)
            assert api.calls.count("getUpdates") == 1
            await eventually(lambda: len(desk.received) == 1)

    asyncio.run(run())


def test_a_second_program_on_the_same_bot_is_named_in_the_log(
    api: BotApiStandin, caplog: pytest.LogCaptureFixture
) -> None:
    api.next_call("getUpdates", conflict())
    api.push_text(ADA, "4a eggs")
    hear(api.url, 1)
    (record,) = [record for record in caplog.records if record.levelno >= logging.WARNING]
    line = private_formatter().format(record)
    assert "another program is fetching this bot's messages; stop one of the two" in line
    assert "wait_seconds=0.02 " in line


def test_an_old_update_number_is_not_kept_through_a_quiet_time(api: BotApiStandin) -> None:
    """After a quiet week Telegram counts on from a random number, which may be a lower one.

    Source: the Bot API's documentation of Update, core.telegram.org/bots/api#update (from memory).
    """
    pushed, desk = api.push_text(ADA, "4a eggs"), Desk()

    async def run() -> None:
        async with listening(api.url, desk):
            await eventually(lambda: len(api.offsets) >= 4)

    asyncio.run(run())
    assert api.offsets[:4] == [None, pushed.update_id + 1, None, None]


def test_two_listeners_at_once_lose_nothing(api: BotApiStandin) -> None:
    one, other = Desk(), Desk()

    async def run() -> None:
        async with listening(api.url, one), listening(api.url, other):
            for box in range(1, 21):
                api.push_text(ADA, f"{box}a eggs")
                await asyncio.sleep(0.01)
            await eventually(lambda: len({*one.texts, *other.texts}) == 20)

    asyncio.run(run())


def test_the_channel_waits_for_a_server_that_is_not_there_yet() -> None:
    port, desk = free_port(), Desk()

    async def run() -> None:
        async with listening(f"http://127.0.0.1:{port}", desk):
            await asyncio.sleep(0.1)
            with running_standin(port=port) as late:
                late.push_text(ADA, "4a eggs")
                await eventually(lambda: desk.texts == ["4a eggs"])

    asyncio.run(run())


def test_the_channel_outlives_a_server_that_goes_away_and_comes_back() -> None:
    desk = Desk()

    async def run() -> None:
        with running_standin() as server:
            server.push_text(ADA, "4a eggs")
            task = asyncio.create_task(listen_until(server, ["4a eggs", "4b eggs"]))
            await eventually(lambda: desk.texts == ["4a eggs"])
        await asyncio.sleep(0.1)
        with running_standin(again=server):
            server.push_text(ADA, "4b eggs")
            await task

    async def listen_until(server: BotApiStandin, texts: list[str]) -> None:
        async with listening(server.url, desk):
            await eventually(lambda: desk.texts == texts)

    asyncio.run(run())


@pytest.mark.parametrize("token", ["654321:ANOTHER-INVENTED-TOKEN", " ", ""])
def test_a_wrong_token_ends_listening_with_one_clear_line(api: BotApiStandin, token: str) -> None:
    async def run() -> None:
        channel = quick_channel(api.url, token)
        try:
            await channel.listen(Desk().receive)
        finally:
            await channel.close()

    with pytest.raises(ChannelBroken) as broken:
        asyncio.run(run())
    assert "token" in str(broken.value)
    assert not token.strip() or token not in str(broken.value)


def test_a_token_taken_back_while_listening_ends_it(api: BotApiStandin) -> None:
    async def run() -> None:
        channel = quick_channel(api.url)
        task = asyncio.create_task(channel.listen(Desk().receive))
        await eventually(lambda: "getUpdates" in api.calls)
        api.token = "123456:A-NEW-INVENTED-TOKEN"  # noqa: S105 - invented
        api.push_text(ADA, "4a eggs")
        try:
            await task
        finally:
            await channel.close()

    with pytest.raises(ChannelBroken, match="does not know this bot's token"):
        asyncio.run(run())


def test_neither_the_token_nor_people_s_words_are_logged(
    api: BotApiStandin, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.DEBUG)
    api.next_call("getUpdates", server_error(), gateway_page(), dropped(Drop.BEFORE_EFFECT))
    api.push_text(ADA, "4a temper bad")
    api.push_raw({"message": {"message_id": "no number", "chat": 3}})
    hear(api.url, 1, Desk(failures=1))
    ours = [record for record in caplog.records if record.name.startswith("bot.")]
    assert len(ours) == 5
    log = "\n".join(private_formatter().format(record) for record in caplog.records)
    assert TOKEN not in log
    assert "temper" not in log
    assert str(ADA) + ":" not in log


def test_a_menu_that_cannot_be_offered_holds_no_message_up(api: BotApiStandin) -> None:
    """As an emulator of the Bot API answered: a menu is decoration."""
    api.next_call("setMyCommands", *[server_error()] * 10_000)
    desk = Desk()

    async def run() -> None:
        channel = quick_channel(api.url, due="what is due")
        listening = asyncio.create_task(channel.listen(desk.receive))
        api.push_text(ADA, "due")
        await eventually(lambda: desk.texts == ["due"])
        listening.cancel()
        await asyncio.gather(listening, return_exceptions=True)
        await channel.close()

    asyncio.run(run())
    assert "setMyCommands" in api.calls


def test_a_menu_that_could_not_be_offered_at_first_is_offered_in_the_end(
    api: BotApiStandin,
) -> None:
    api.next_call("setMyCommands", server_error(), server_error())

    async def run() -> None:
        channel = quick_channel(api.url, due="what is due")
        await channel.connect()
        await eventually(lambda: api.menu == {"due": "what is due"})
        await channel.close()

    asyncio.run(run())


@pytest.mark.parametrize("error", [OverflowError, RecursionError, KeyError, ZeroDivisionError])
def test_a_message_that_cannot_be_read_is_left_out_and_the_next_ones_come(
    api: BotApiStandin, monkeypatch: pytest.MonkeyPatch, error: type[Exception]
) -> None:
    def read(update: Update, now: datetime) -> IncomingMessage | None:
        message = message_from(update, now)
        if message is not None and message.text == "bad":
            raise error
        return message

    monkeypatch.setattr(telegram_incoming, "message_from", read)
    for text in ("4a eggs", "bad", "4b eggs"):
        api.push_text(ADA, text)
    assert [message.text for message in hear(api.url, 2)] == ["4a eggs", "4b eggs"]
    assert api.unconfirmed == ()


def test_an_update_without_a_number_that_can_be_counted_stops_nobody(api: BotApiStandin) -> None:
    api.push_text(ADA, "4a eggs")
    body = '{"ok": true, "result": [{"update_id": 1e400}]}'
    api.next_call("getUpdates", Fault(body=body), Fault(body=body))
    assert [message.text for message in hear(api.url, 1)] == ["4a eggs"]
