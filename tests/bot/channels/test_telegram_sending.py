"""Letters leave through the real library over HTTP, and every end they can come to is told."""

import asyncio
import socket
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import Engine

from bot.channels.channel import (
    Button,
    Channel,
    Document,
    OutgoingMessage,
    SendOutcome,
    SendResult,
)
from bot.channels.telegram.channel import TelegramChannel
from bot.delivery import outbox
from bot.delivery.outbox import Recipient
from bot.delivery.rules import Purpose
from bot.delivery.sender import Sender
from deploy.standins.bot_api_faults import (
    Drop,
    Fault,
    bad_request,
    dropped,
    flood,
    forbidden,
    gateway_page,
    moved,
    server_error,
    slow,
)
from deploy.standins.bot_api_standin import TOKEN, BotApiStandin, running_standin
from scheduling.records.engine import writing
from tests.bot.channels.telegram_listening import eventually, quick_channel
from tests.bot.delivery.counter import NOW, Counter, after

ADA = "5001"
MORNING = "Open today in River: 4a-c 6b, laying check."


@pytest.fixture
def api() -> Iterator[BotApiStandin]:
    with running_standin() as standin:
        yield standin


@pytest.fixture
def counter(engine: Engine) -> Counter:
    return Counter(engine)


def send(
    url: str, *letters: OutgoingMessage, token: str = TOKEN, answer_within: float = 5.0
) -> list[SendOutcome]:
    async def run() -> list[SendOutcome]:
        channel: Channel = quick_channel(url, token, answer_within)
        try:
            return [await channel.send(outgoing) for outgoing in letters]
        finally:
            await channel.close()

    return asyncio.run(run())


def send_morning(api: BotApiStandin) -> SendOutcome:
    (outcome,) = send(api.url, OutgoingMessage(ADA, MORNING))
    return outcome


def test_a_morning_arrives_with_its_buttons(api: BotApiStandin) -> None:
    row = (Button("4a eggs", "4a eggs"), Button("4a no eggs", "4a no eggs"))
    (outcome,) = send(api.url, OutgoingMessage(ADA, MORNING, (row,)))
    assert outcome == SendOutcome(SendResult.SENT, carrier_id="5001:1")
    (sent,) = api.sent
    assert (sent.chat, sent.text) == (5001, MORNING)
    assert sent.buttons == ((("4a eggs", "4a eggs"), ("4a no eggs", "4a no eggs")),)


def test_a_file_arrives_with_the_words_under_it(api: BotApiStandin) -> None:
    document = Document("yardbell-my-data.json", '{\n "name": "Ada"\n}')
    (outcome,) = send(api.url, OutgoingMessage(ADA, "All of it.", document=document))
    assert outcome == SendOutcome(SendResult.SENT, carrier_id="5001:1")
    (sent,) = api.sent
    assert (sent.chat, sent.text) == (5001, "All of it.")
    assert sent.document == (document.name, document.text)


def test_marks_of_formatting_arrive_as_they_were_written(api: BotApiStandin) -> None:
    text = "4b *good* _pattern_ <b>1:1</b> [x](y) `z` &amp;"
    send(api.url, OutgoingMessage(ADA, text))
    assert [sent.text for sent in api.sent] == [text]


def test_a_flood_is_waited_out_for_as_long_as_asked(api: BotApiStandin) -> None:
    api.next_send(flood(7))
    outcome = send_morning(api)
    assert (outcome.result, outcome.wait) == (SendResult.LATER, timedelta(seconds=7))
    assert api.sent == []


# The server's words, as quoted in public threads of bot libraries: tucnak/telebot pull request
# 659 (403s) and botman/driver-telegram issue 89 (chat not found), both on github.com.
@pytest.mark.parametrize(
    "fault",
    [
        forbidden("Forbidden: bot was blocked by the user"),
        forbidden("Forbidden: user is deactivated"),
        forbidden("Forbidden: bot can't initiate conversation with a user"),
        bad_request("Bad Request: chat not found"),
    ],
)
def test_a_chat_that_is_gone_takes_no_more_messages(api: BotApiStandin, fault: Fault) -> None:
    api.next_send(fault)
    outcome = send_morning(api)
    assert outcome.result is SendResult.UNREACHABLE
    assert outcome.said


@pytest.mark.parametrize(
    "fault",
    [
        forbidden("Forbidden: something that nobody has seen yet"),
        bad_request("Bad Request: message text is empty"),
        bad_request("Bad Request: message is too long"),
    ],
)
def test_any_other_refusal_is_of_this_message_only(api: BotApiStandin, fault: Fault) -> None:
    api.next_send(fault)
    assert send_morning(api).result is SendResult.REFUSED


@pytest.mark.parametrize("fault", [server_error(500), server_error(503), gateway_page(502)])
def test_a_server_s_own_failure_is_tried_later(api: BotApiStandin, fault: Fault) -> None:
    api.next_send(fault)
    outcome = send_morning(api)
    assert (outcome.result, outcome.wait) == (SendResult.LATER, None)
    assert api.sent == []


def test_a_chat_that_moved_is_written_to_under_its_new_number(api: BotApiStandin) -> None:
    api.next_send(moved(-1005001))
    outcome = send_morning(api)
    assert (outcome.result, outcome.moved_to) == (SendResult.LATER, "-1005001")


@pytest.mark.parametrize(
    ("fault", "arrived"),
    [
        (dropped(Drop.BEFORE_EFFECT), 0),
        (dropped(Drop.AFTER_EFFECT), 1),
        (Fault(body="<html>sign in to use this network</html>"), 0),
        (Fault(body='{"result": {}}'), 0),
        (Fault(body='{"ok": false}'), 0),
        (Fault(body='["ok"]'), 0),
    ],
    ids=["cut before", "cut after", "portal", "not said", "not ok", "a list"],
)
def test_without_an_answer_nobody_knows_whether_it_arrived(
    api: BotApiStandin, fault: Fault, arrived: int
) -> None:
    api.next_send(fault)
    assert send_morning(api).result is SendResult.UNKNOWN
    assert len(api.wait_for_sent(arrived)) == arrived


@pytest.mark.parametrize(
    "body",
    [
        '{"ok": true}',
        '{"ok": true, "result": {}}',
        '{"ok": true, "result": {"message_id": "x"}}',
        '{"ok": true, "result": {"message_id": 1, "date": 1e30, "chat": {"id": 1, "type": ""}}}',
    ],
    ids=["no result", "an empty one", "a strange one", "an instant that never comes"],
)
def test_what_the_server_says_is_ok_was_sent_whatever_else_it_says(
    api: BotApiStandin, body: str
) -> None:
    """As an emulator of the Bot API answered: taken for unknown, every message came twice."""
    api.next_send(Fault(body=body))
    assert send_morning(api) == SendOutcome(SendResult.SENT)


def test_an_ok_is_of_its_own_message_only(api: BotApiStandin) -> None:
    api.next_send(Fault(body='{"ok": true}'), dropped(Drop.BEFORE_EFFECT))
    first, second = send(api.url, OutgoingMessage(ADA, MORNING), OutgoingMessage(ADA, MORNING))
    assert (first.result, second.result) == (SendResult.SENT, SendResult.UNKNOWN)


def test_an_answer_that_comes_too_late_leaves_it_unknown(api: BotApiStandin) -> None:
    api.next_send(slow(1.0))
    (outcome,) = send(api.url, OutgoingMessage(ADA, MORNING), answer_within=0.3)
    assert outcome.result is SendResult.UNKNOWN
    assert [sent.text for sent in api.wait_for_sent(1)] == [MORNING]


def test_a_letter_that_met_no_server_was_not_sent() -> None:
    with socket.socket() as closed:
        closed.bind(("127.0.0.1", 0))
        (outcome,) = send(
            f"http://127.0.0.1:{closed.getsockname()[1]}", OutgoingMessage(ADA, MORNING)
        )
    assert outcome.result is SendResult.LATER


def test_a_letter_with_a_refused_token_waits_for_the_right_one(api: BotApiStandin) -> None:
    (outcome,) = send(api.url, OutgoingMessage(ADA, MORNING), token="654321:ANOTHER")  # noqa: S106
    assert outcome.result is SendResult.LATER
    assert "ANOTHER" not in outcome.said


def test_after_a_failure_the_next_letter_goes_through(api: BotApiStandin) -> None:
    api.next_send(dropped(Drop.BEFORE_EFFECT), server_error(), flood(3))
    results = [outcome.result for outcome in send(api.url, *[OutgoingMessage(ADA, MORNING)] * 4)]
    assert results == [SendResult.UNKNOWN, SendResult.LATER, SendResult.LATER, SendResult.SENT]


def test_one_character_over_the_limit_goes_in_two_messages(api: BotApiStandin) -> None:
    lines = "\n".join(f"{box}a-c eggs expected, leave alone" for box in range(1, 200))[:4097]
    assert len(lines) == 4097
    whole = OutgoingMessage(ADA, lines, ((Button("due", "due"),),))
    begun, outcome = send(api.url, whole, replace(whole, part=1))
    assert (begun.result, begun.parts_left) == (SendResult.SENT, 1)
    first, second = api.sent
    assert f"{first.text}\n{second.text}" == lines
    assert (first.buttons, second.buttons) == ((), ((("due", "due"),),))
    assert outcome == SendOutcome(SendResult.SENT, carrier_id="5001:2")


def test_a_text_at_the_limit_goes_in_one_message(api: BotApiStandin) -> None:
    send(api.url, OutgoingMessage(ADA, "x" * 4096))
    assert [len(sent.text) for sent in api.sent] == [4096]


def test_of_a_letter_that_breaks_in_the_middle_only_the_missing_parts_are_sent_again(
    api: BotApiStandin, counter: Counter
) -> None:
    api.next_send(Fault(), flood(5), Fault())
    words = " ".join(f"{box}a" for box in range(2500))
    with writing(counter.engine) as session:
        to = Recipient("telegram", ADA)
        outbox.plan(session, "a", Purpose.ANSWER, to, OutgoingMessage(ADA, words), NOW)
    for at in (0, 4.9, 5, 10):
        carry_to_telegram(api, counter, at)

    assert " ".join(sent.text for sent in api.sent) == words
    assert len(api.sent) == 4
    assert api.calls == ["sendMessage"] * 5
    assert counter.state("a") == "sent"


def carry_to_telegram(api: BotApiStandin, counter: Counter, at: float) -> None:
    """Send what may be sent so many seconds after noon, without a pace."""

    async def run() -> None:
        channel = quick_channel(api.url)
        channels: dict[str, Channel] = {channel.traits.name: channel}
        await Sender(counter.engine, channels, lambda: after(at), rate_limits={}).round()
        await channel.close()

    asyncio.run(run())


@pytest.mark.parametrize(
    "outgoing", [OutgoingMessage(ADA, " \n"), OutgoingMessage("Ada", "4b eggs")]
)
def test_what_can_never_be_sent_is_refused_without_asking(
    api: BotApiStandin, outgoing: OutgoingMessage
) -> None:
    assert [outcome.result for outcome in send(api.url, outgoing)] == [SendResult.REFUSED]
    assert api.calls == []


def test_more_buttons_than_telegram_takes_do_not_cost_the_message(api: BotApiStandin) -> None:
    wide = tuple(Button(f"{box}a", f"{box}a eggs") for box in range(1, 121))
    long = (Button("too long", "x" * 65), Button("just right", "x" * 64), Button("empty", ""))
    (outcome,) = send(api.url, OutgoingMessage(ADA, MORNING, (long, wide)))
    assert outcome.result is SendResult.SENT
    (sent,) = api.sent
    assert sent.buttons[0] == (("just right", "x" * 64),)
    assert [len(row) for row in sent.buttons] == [1, *[8] * 12, 3]


def test_the_menu_and_the_invite_link_are_there_once_connected(api: BotApiStandin) -> None:
    async def run() -> str:
        channel = quick_channel(api.url, due="what is due today", undo="take back the last reply")
        try:
            await channel.connect()
            await eventually(lambda: bool(api.menu))
            return channel.invite_link("river_42-A")
        finally:
            await channel.close()

    assert asyncio.run(run()) == "https://t.me/invented_yard_bot?start=river_42-A"
    assert api.menu == {"due": "what is due today", "undo": "take back the last reply"}
    assert api.webhook_left


def test_a_menu_that_telegram_refuses_does_not_stop_the_bot(api: BotApiStandin) -> None:
    api.next_call("setMyCommands", bad_request("Bad Request: BOT_COMMAND_INVALID"))

    async def run() -> None:
        channel = quick_channel(api.url, due="what is due today")
        try:
            await channel.connect()
            await eventually(lambda: "setMyCommands" in api.calls)
        finally:
            await channel.close()

    asyncio.run(run())
    assert api.menu == {}


@pytest.mark.parametrize("code", ["", "two words", "x" * 65, "r\u00edo"])
def test_an_invite_code_that_no_link_can_carry_is_named(api: BotApiStandin, code: str) -> None:
    channel = TelegramChannel("1:A", api.url)
    with pytest.raises(ValueError, match="does not fit into a link"):
        channel.invite_link(code)


def test_an_invite_link_is_not_made_up_before_the_bot_s_name_is_known(api: BotApiStandin) -> None:
    with pytest.raises(RuntimeError):
        TelegramChannel("1:A", api.url).invite_link("river-42")


def test_closing_twice_is_harmless_and_a_closed_channel_sends_nothing(api: BotApiStandin) -> None:
    async def run() -> SendOutcome:
        channel = quick_channel(api.url)
        await channel.close()
        await channel.close()
        return await channel.send(OutgoingMessage(ADA, MORNING))

    assert asyncio.run(run()).result is not SendResult.SENT
    assert api.calls == []
