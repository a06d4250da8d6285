"""Letters leave over HTTP to a strict stand-in, and every end they can come to is told."""

import asyncio
import socket
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from urllib.parse import parse_qs, urlsplit

import pytest

from bot.channels.channel import ChannelBroken, OutgoingMessage, SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.channels.sms.segments import segments
from bot.channels.twilio.channel import TwilioChannel
from bot.channels.twilio.twilio_account import TwilioAccount
from deploy.standins.message_api_standin import (
    ACCOUNT,
    SENDER,
    TOKEN,
    Answer,
    MessageApi,
    running_message_api,
)

ADA = "+12025550123"
MORNING = "Open today in River: 4a-c 6b, laying check."
AT = datetime(2027, 5, 12, 10, 30, tzinfo=UTC)


@pytest.fixture
def api() -> Iterator[MessageApi]:
    with running_message_api() as api:
        yield api


def account(url: str, token: str = TOKEN, sender: str = SENDER) -> TwilioAccount:
    return TwilioAccount(ACCOUNT, token, sender, "https://yards.example/bot/", url=url)


def send(
    url: str,
    *letters: OutgoingMessage,
    token: str = TOKEN,
    sender: str = SENDER,
    within: float = 5.0,
) -> list[SendOutcome]:
    async def run() -> list[SendOutcome]:
        channel = TwilioChannel(
            account(url, token, sender), clock=lambda: AT, answer_within=timedelta(seconds=within)
        )
        try:
            return [await channel.send(outgoing) for outgoing in letters]
        finally:
            await channel.close()

    return asyncio.run(run())


def send_morning(api: MessageApi) -> SendOutcome:
    (outcome,) = send(api.url, OutgoingMessage(ADA, MORNING, key="17"))
    return outcome


def test_a_morning_is_handed_over(api: MessageApi) -> None:
    assert send_morning(api) == SendOutcome(SendResult.SENT, carrier_id=MessageApi.sid(1))
    (posted,) = api.posted
    assert (posted["To"], posted["From"], posted["Body"]) == (ADA, SENDER, MORNING)


def test_the_carrier_is_told_where_to_report_this_message(api: MessageApi) -> None:
    send_morning(api)
    called = urlsplit(api.posted[0]["StatusCallback"])
    assert (called.scheme, called.netloc, called.path) == (
        "https", "yards.example", "/bot/twilio/status",
    )  # fmt: skip
    assert parse_qs(called.query) == {"key": ["17/0"], "at": [str(int(AT.timestamp()))]}


def test_a_messaging_service_may_send(api: MessageApi) -> None:
    service = "MG" + "0" * 32
    send(api.url, OutgoingMessage(ADA, MORNING), sender=service)
    assert api.posted[0]["MessagingServiceSid"] == service
    assert "From" not in api.posted[0]


# Numbers: see bot/channels/twilio/refusals.py.
@pytest.mark.parametrize(
    ("answer", "result", "send_error"),
    [
        (Answer(400, 21610), SendResult.UNREACHABLE, SendError.OPTED_OUT),
        (Answer(400, 21211), SendResult.UNREACHABLE, SendError.NO_SUCH_NUMBER),
        (Answer(400, 21614), SendResult.UNREACHABLE, SendError.NO_TEXTS),
        (Answer(400, 21635), SendResult.UNREACHABLE, SendError.NO_TEXTS),
        (Answer(400, 21606), SendResult.REFUSED, SendError.REFUSED),
        (Answer(400, 99999), SendResult.REFUSED, SendError.REFUSED),
        (Answer(400, body="what?"), SendResult.REFUSED, SendError.REFUSED),
        (Answer(401, 20003), SendResult.LATER, SendError.TOKEN_REFUSED),
        (Answer(403, body=""), SendResult.LATER, SendError.TOKEN_REFUSED),
        (Answer(429, 20429), SendResult.LATER, SendError.FLOOD),
        (Answer(429, body=""), SendResult.LATER, SendError.FLOOD),
        (Answer(503, body="<html>"), SendResult.LATER, SendError.CARRIER_FAILED),
        (Answer(302, body=""), SendResult.UNKNOWN, SendError.ODD_ANSWER),
        (Answer(200, body="<html>sign in</html>"), SendResult.UNKNOWN, SendError.ODD_ANSWER),
        (Answer(201, body="[]"), SendResult.UNKNOWN, SendError.ODD_ANSWER),
        (Answer(201, body='{"sid": 7}'), SendResult.UNKNOWN, SendError.ODD_ANSWER),
        (Answer(drop=True), SendResult.UNKNOWN, SendError.NO_ANSWER),
    ],
)
def test_every_end_of_a_send_is_told_apart(
    api: MessageApi, answer: Answer, result: SendResult, send_error: SendError
) -> None:
    api.next_answers = [answer]
    outcome = send_morning(api)
    assert (outcome.result, outcome.error) == (result, send_error)
    assert outcome.said


def test_a_flood_is_waited_out_for_as_long_as_asked(api: MessageApi) -> None:
    api.next_answers = [Answer(429, 20429, headers={"Retry-After": "7"})]
    assert send_morning(api).wait == timedelta(seconds=7)


def test_an_answer_that_comes_too_late_leaves_it_unknown(api: MessageApi) -> None:
    api.next_answers = [Answer(after=1.0)]
    (outcome,) = send(api.url, OutgoingMessage(ADA, MORNING), within=0.2)
    assert outcome.result is SendResult.UNKNOWN


def test_a_letter_that_met_no_server_was_not_sent() -> None:
    with socket.socket() as closed:
        closed.bind(("127.0.0.1", 0))
        (outcome,) = send(
            f"http://127.0.0.1:{closed.getsockname()[1]}", OutgoingMessage(ADA, MORNING)
        )
    assert (outcome.result, outcome.error) == (SendResult.LATER, SendError.NO_CONNECTION)


def test_a_wrong_token_is_waited_for_and_not_repeated(api: MessageApi) -> None:
    (outcome,) = send(api.url, OutgoingMessage(ADA, MORNING), token="wrong-secret")  # noqa: S106
    assert (outcome.result, outcome.error) == (SendResult.LATER, SendError.TOKEN_REFUSED)
    assert "wrong-secret" not in str(outcome)


@pytest.mark.parametrize(
    "outgoing",
    [OutgoingMessage(ADA, " \n"), OutgoingMessage(ADA, ""), OutgoingMessage("Ada", "4b eggs")],
)
def test_what_can_never_be_sent_is_refused_without_asking(
    api: MessageApi, outgoing: OutgoingMessage
) -> None:
    assert [outcome.result for outcome in send(api.url, outgoing)] == [SendResult.REFUSED]
    assert api.posted == []


def test_a_text_longer_than_the_carrier_takes_goes_in_two(api: MessageApi) -> None:
    outgoing = OutgoingMessage(ADA, "\n".join(f"{box}a-c eggs" for box in range(1, 200)))
    first, second = send(api.url, outgoing, replace(outgoing, part=1))
    assert (first.parts_left, second.parts_left) == (1, 0)
    assert "".join(posted["Body"] for posted in api.posted) == outgoing.text
    assert segments(api.posted[0]["Body"]) == 10


@pytest.mark.parametrize("missing", ["sid", "token", "sender"])
def test_a_setting_that_is_blank_is_named_at_the_start(missing: str) -> None:
    with pytest.raises(ChannelBroken, match="sid and token, and a sender"):
        TwilioChannel(replace(account("http://127.0.0.1"), **{missing: " "}))


def test_the_token_does_not_stand_in_the_account_s_own_words() -> None:
    shown = repr(replace(account("http://127.0.0.1"), shared_key="shared-secret"))
    assert TOKEN not in shown
    assert "shared-secret" not in shown


def test_a_closed_channel_sends_nothing(api: MessageApi) -> None:
    async def run() -> SendOutcome:
        channel = TwilioChannel(account(api.url))
        await channel.close()
        await channel.close()
        return await channel.send(OutgoingMessage(ADA, MORNING))

    assert asyncio.run(run()).result is SendResult.LATER
    assert api.posted == []
