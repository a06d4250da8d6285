"""What the phone received, and how its texts fared, comes over HTTP; only what it signed counts."""

import asyncio
import random
from collections import Counter
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from starlette.applications import Starlette

from bot.channels.channel import ChannelBroken, IncomingMessage
from bot.channels.phone.channel import PhoneChannel
from bot.channels.phone.device import PhoneDevice
from bot.channels.reports import Delivery, DeliveryReport
from bot.channels.send_error import SendError
from deploy.standins.phone_standin import (
    AT,
    KEY,
    LOGIN,
    PASSWORD,
    event,
    running_phone,
    signed,
    text_in,
)
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from tests.bot.channels.asgi_posts import Answered, post
from tests.bot.channels.taking_in import TakenIn

PATH = "/phone/event"
DEVICE = PhoneDevice("http://127.0.0.1:9", LOGIN, PASSWORD, KEY, "https://192.168.1.20", "US")
ADA = "+16505551212"


@asynccontextmanager
async def open_to(taken: TakenIn, device: PhoneDevice = DEVICE) -> AsyncIterator[Starlette]:
    channel = PhoneChannel(device, taken.report, clock=lambda: taken.now)
    listening = asyncio.create_task(channel.listen(taken.receive))
    await asyncio.sleep(0)
    try:
        yield Starlette(routes=channel.routes())
    finally:
        listening.cancel()
        await asyncio.gather(listening, return_exceptions=True)
        await channel.close()


def told(
    taken: TakenIn, *bodies: bytes, at: datetime = AT, device: PhoneDevice = DEVICE
) -> list[Answered]:
    async def run() -> list[Answered]:
        async with open_to(taken, device) as app:
            return [await post(app, PATH, body, signed(body, at)) for body in bodies]

    return asyncio.run(run())


def test_a_reply_reaches_the_desk_under_a_full_number() -> None:
    taken = TakenIn(AT)
    (answered,) = told(taken, text_in())
    (message,) = taken.messages
    at = datetime(2027, 5, 12, 10, 29, 11, tzinfo=UTC)
    assert message == IncomingMessage("sms", ADA, message.id, "4a eggs, 5b no eggs", at)
    assert (answered.status, answered.body) == (204, b"")


def test_the_same_notice_again_is_the_same_message_and_the_same_words_later_another() -> None:
    taken = TakenIn(AT)
    later = text_in(receivedAt="2027-05-13T05:29:11.000-05:00")
    told(taken, text_in(), text_in(), later)
    first, again, next_day = (message.id for message in taken.messages)
    assert first == again != next_day


@pytest.mark.parametrize("sender", ["88022", "YARDS", "", "12"])
def test_who_cannot_be_answered_is_nobody_of_ours(sender: str) -> None:
    taken = TakenIn(AT)
    assert [one.status for one in told(taken, text_in(sender=sender))] == [204]
    assert taken.messages == []


def test_without_a_land_a_national_number_is_nobody_s() -> None:
    taken = TakenIn(AT)
    told(taken, text_in(), text_in(sender=ADA), device=replace(DEVICE, region=None))
    assert [message.address for message in taken.messages] == [ADA]


# docs/features/status-tracking.md and docs/faq/errors.md of the app's documents.
@pytest.mark.parametrize(
    ("name", "reason", "delivery", "send_error"),
    [
        ("sms:sent", "", Delivery.HANDED_OVER, None),
        ("sms:delivered", "", Delivery.DELIVERED, None),
        ("sms:failed", "Invalid number", Delivery.FAILED, SendError.NO_SUCH_NUMBER),
        ("sms:failed", "RESULT_ERROR_LIMIT_EXCEEDED", Delivery.FAILED, SendError.FLOOD),
        ("sms:failed", "RESULT_RIL_MODEM_ERR", Delivery.FAILED, SendError.CARRIER_FAILED),
    ],
)
def test_how_a_text_fared_is_reported(
    name: str, reason: str, delivery: Delivery, send_error: SendError | None
) -> None:
    taken = TakenIn(AT)
    told(taken, event(name, messageId="m1", phoneNumber=ADA, reason=reason))
    assert taken.reports == [DeliveryReport("sms", "m1", delivery, AT, error=send_error)]


def test_a_notice_that_was_not_stored_comes_again() -> None:
    taken = TakenIn(AT, full=True)
    assert [one.status for one in told(taken, text_in())] == [503]


@pytest.mark.parametrize(
    "body",
    [b"", b"[]", b"null", b"7", b"{}", b'{"event": "sms:received"}', b"\xff\xfe", b"[" * 5000,
     event("sms:received"), event("sms:sent"), event("sms:received", message=7),
     text_in(receivedAt="yesterday"), text_in(receivedAt="2027-05-12T05:29:11"),
     text_in(receivedAt="0001-01-01T00:00:00+14:00"),
     text_in(receivedAt="9999-12-31T23:59:59-14:00")],
)  # fmt: skip
def test_a_signed_notice_that_cannot_be_read_is_left_out_for_good(body: bytes) -> None:
    taken = TakenIn(AT)
    assert [one.status for one in told(taken, body)] == [204]
    assert (taken.messages, taken.reports) == ([], [])


def test_half_a_letter_is_replaced_and_the_text_counts() -> None:
    taken = TakenIn(AT)
    assert [one.status for one in told(taken, text_in("4a eggs \ud83d"))] == [204]
    assert taken.texts == ["4a eggs \ufffd"]


def test_events_that_nobody_asked_for_are_nothing_to_us() -> None:
    taken = TakenIn(AT)
    assert [one.status for one in told(taken, event("system:ping", health={}))] == [204]
    assert (taken.messages, taken.reports) == ([], [])


@pytest.mark.parametrize("age", [timedelta(days=3, seconds=1), -timedelta(minutes=6)])
def test_a_stale_notice_changes_nothing(age: timedelta) -> None:
    taken = TakenIn(AT)
    assert told(taken, text_in(), at=AT - age) == [Answered(403, b"")]
    assert taken.messages == []


def test_a_notice_that_waited_two_days_for_us_counts() -> None:
    taken = TakenIn(AT)
    told(taken, text_in(), at=AT - timedelta(days=2))
    assert len(taken.messages) == 1


def bad(rng: random.Random) -> tuple[bytes, dict[str, str]]:
    """A notice spoilt in one way."""
    body = text_in(f"{rng.randint(1, 60)}a eggs")
    given = signed(body)
    at = rng.randrange(len(body))
    return rng.choice(
        [
            (body, {}),
            (body, given | {"X-Signature": ""}),
            (body, given | {"X-Signature": given["X-Signature"][:-1] + "g"}),
            (body, given | {"X-Signature": given["X-Signature"].upper()}),
            (body, given | {"X-Timestamp": str(int(AT.timestamp()) + rng.randint(1, 200))}),
            (body, given | {"X-Timestamp": rng.choice(["", "x", "-1", "1e9", "\u0661", "9" * 40])}),
            (body[:at] + bytes([body[at] ^ 1]) + body[at + 1 :], given),
            (body[:at], given),
            (body + b" ", given),
            (rng.randbytes(rng.randint(0, 400)), given),
            (body, signed(body, key=f"guess-{rng.random()}")),
            (body + b"x" * 20_000, given),
        ]
    )


def test_three_thousand_bad_notices_change_nothing() -> None:
    taken = TakenIn(AT)

    async def run() -> Counter[int]:
        rng, statuses = random.Random(11), Counter[int]()  # noqa: S311 - examples, no secrets
        async with open_to(taken) as app:
            for _ in range(3_000):
                taken.now += timedelta(seconds=0.02)
                answered = await post(app, PATH, *bad(rng))
                assert answered.body == b""
                statuses[answered.status] += 1
            return statuses

    statuses = asyncio.run(run())
    assert set(statuses) == {403, 413, 429}
    assert sum(statuses.values()) == 3_000
    assert (taken.messages, taken.reports) == ([], [])


def test_forged_notices_cannot_crowd_out_the_phone_s() -> None:
    taken = TakenIn(AT)

    async def run() -> Answered:
        async with open_to(taken) as app:
            for _ in range(500):
                await post(app, PATH, text_in(), {})
            return await post(app, PATH, text_in(), signed(text_in()))

    assert asyncio.run(run()).status == 204
    assert len(taken.messages) == 1


def test_the_phone_is_told_where_its_notices_go() -> None:
    with running_phone() as phone:

        async def run() -> None:
            async with open_to(TakenIn(AT), replace(DEVICE, url=phone.url)):
                async with asyncio.timeout(WAIT_AT_MOST_SECONDS):
                    while len(phone.hooks) < 4:
                        await asyncio.sleep(0.01)

        asyncio.run(run())
        asyncio.run(run())
    assert {(hook["event"], hook["url"]) for hook in phone.hooks.values()} == {
        (name, "https://192.168.1.20/phone/event")
        for name in ("sms:received", "sms:sent", "sms:delivered", "sms:failed")
    }
    assert len(phone.hooks) == 4


def test_a_refused_login_breaks_the_channel_in_one_line() -> None:
    with running_phone() as phone:

        async def run() -> None:
            device = replace(DEVICE, url=phone.url, password="wrong-secret")  # noqa: S106
            channel = PhoneChannel(device)
            try:
                await channel.listen(TakenIn(AT).receive)
            finally:
                await channel.close()

        with pytest.raises(ChannelBroken, match="login and password") as refused:
            asyncio.run(run())
    assert "wrong-secret" not in str(refused.value)
