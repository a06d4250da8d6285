"""Texts go through a phone on the local network, each once, at the phone's own pace."""

import asyncio
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

import pytest

from bot.channels.channel import ChannelBroken, OutgoingMessage, SendOutcome, SendResult
from bot.channels.phone.channel import PhoneChannel
from bot.channels.phone.device import ANDROID, Allowance, PhoneDevice
from bot.channels.send_error import SendError
from deploy.standins.phone_standin import AT, KEY, LOGIN, PASSWORD, Phone, running_phone

ADA = "+16505551212"
MORNING = "Open today in River: 4a-c 6b, laying check."


@pytest.fixture
def phone() -> Iterator[Phone]:
    with running_phone() as phone:
        yield phone


def device(url: str, password: str = PASSWORD) -> PhoneDevice:
    return PhoneDevice(url, LOGIN, password, KEY, "https://192.168.1.20:8443", region="US")


def send(phone: Phone, *letters: OutgoingMessage, password: str = PASSWORD) -> list[SendOutcome]:
    async def run() -> list[SendOutcome]:
        channel = PhoneChannel(
            device(phone.url, password), clock=lambda: phone.now, answer_within=timedelta(seconds=5)
        )
        try:
            return [await channel.send(outgoing) for outgoing in letters]
        finally:
            await channel.close()

    return asyncio.run(run())


def test_a_morning_goes_out(phone: Phone) -> None:
    (outcome,) = send(phone, OutgoingMessage(ADA, MORNING, key="17"))
    assert outcome.result is SendResult.SENT
    assert phone.sent == [(ADA, MORNING)]
    assert list(phone.states) == [outcome.carrier_id]


@pytest.mark.parametrize("repeats_are_refused", [True, False])
def test_a_letter_tried_twice_is_sent_once(phone: Phone, repeats_are_refused: bool) -> None:
    phone.repeats_are_refused, phone.drops_answers = repeats_are_refused, 1
    outgoing = OutgoingMessage(ADA, MORNING, key="17")
    first, second = send(phone, outgoing, outgoing)
    assert (first.result, first.error) == (SendResult.UNKNOWN, SendError.NO_ANSWER)
    assert second.result is SendResult.SENT
    assert phone.sent == [(ADA, MORNING)]


def test_the_same_words_on_another_day_are_another_message(phone: Phone) -> None:
    send(phone, OutgoingMessage(ADA, MORNING, key="17"), OutgoingMessage(ADA, MORNING, key="18"))
    assert len(phone.sent) == 2


# A morning for a club: 20 people at two segments are more than the phone sends in half an hour.
def test_a_morning_that_does_not_fit_waits_and_none_of_it_is_lost(phone: Phone) -> None:
    letters = [OutgoingMessage(f"+1650555{n:04d}", "x" * 200, key=str(n)) for n in range(20)]

    async def run() -> list[SendOutcome]:
        channel = PhoneChannel(device(phone.url), clock=lambda: phone.now)
        now = [await channel.send(outgoing) for outgoing in letters]
        phone.now += timedelta(minutes=30)
        later = [await channel.send(outgoing) for outgoing in letters[15:]]
        await channel.close()
        return [*now, *later]

    outcomes = asyncio.run(run())
    assert [one.result for one in outcomes[:20]] == [SendResult.SENT] * 15 + [SendResult.LATER] * 5
    assert {(one.error, one.wait) for one in outcomes[15:20]} == {
        (SendError.FLOOD, timedelta(minutes=30))
    }
    assert "30 segments in 30 minutes" in outcomes[19].said
    assert len(phone.sent) == 20
    assert "Failed" not in phone.states.values()


def test_the_owner_reads_once_that_the_morning_does_not_fit(
    phone: Phone, caplog: pytest.LogCaptureFixture
) -> None:
    send(phone, *[OutgoingMessage(ADA, "x", key=str(n)) for n in range(40)])
    warned = [record for record in caplog.records if record.levelname == "WARNING"]
    assert [record.getMessage() for record in warned] == ["what does not fit waits"]
    assert "30 segments in 30 minutes" in vars(warned[0])["said"]


def test_room_comes_back_as_earlier_texts_age() -> None:
    allowance = Allowance(ANDROID)
    allowance.spend(20, AT)
    allowance.spend(10, AT + timedelta(minutes=10))
    soon = AT + timedelta(minutes=12)
    assert allowance.free_at(1, soon) == AT + timedelta(minutes=30)
    assert allowance.free_at(21, soon) == AT + timedelta(minutes=40)
    assert allowance.free_at(20, AT + timedelta(minutes=30)) == AT + timedelta(minutes=30)


@pytest.mark.parametrize(
    ("status", "result", "send_error"),
    [
        (400, SendResult.REFUSED, SendError.REFUSED),
        (429, SendResult.LATER, SendError.FLOOD),
        (500, SendResult.LATER, SendError.CARRIER_FAILED),
        (503, SendResult.LATER, SendError.CARRIER_FAILED),
    ],
)
def test_what_the_phone_refuses(
    phone: Phone, status: int, result: SendResult, send_error: SendError
) -> None:
    phone.next_statuses = [status]
    (outcome,) = send(phone, OutgoingMessage(ADA, MORNING))
    assert (outcome.result, outcome.error) == (result, send_error)
    assert phone.sent == []


def test_a_phone_that_is_away_has_sent_nothing(phone: Phone) -> None:
    (outcome,) = send(replace(phone, url="http://127.0.0.1:9"), OutgoingMessage(ADA, MORNING))
    assert (outcome.result, outcome.error) == (SendResult.LATER, SendError.NO_CONNECTION)


def test_a_wrong_password_is_waited_for_and_not_repeated(phone: Phone) -> None:
    (outcome,) = send(phone, OutgoingMessage(ADA, MORNING), password="wrong-secret")  # noqa: S106
    assert (outcome.result, outcome.error) == (SendResult.LATER, SendError.TOKEN_REFUSED)
    assert "wrong-secret" not in str(outcome)
    assert PASSWORD not in repr(device(phone.url))
    assert KEY not in repr(device(phone.url))


@pytest.mark.parametrize(
    "outgoing",
    [
        OutgoingMessage(ADA, " "),
        OutgoingMessage("Ada", "4b eggs"),
        OutgoingMessage(ADA, "x" * 153 * 31),
    ],
)
def test_what_can_never_be_sent_is_refused_without_asking(
    phone: Phone, outgoing: OutgoingMessage
) -> None:
    assert [one.result for one in send(phone, outgoing)] == [SendResult.REFUSED]
    assert phone.states == {}


@pytest.mark.parametrize("missing", ["login", "password", "signing_key"])
def test_a_setting_that_is_blank_is_named_at_the_start(missing: str) -> None:
    with pytest.raises(ChannelBroken, match="login, password and signing key"):
        PhoneChannel(replace(device("http://127.0.0.1:9"), **{missing: ""}))


def test_a_closed_channel_sends_nothing(phone: Phone) -> None:
    async def run() -> SendOutcome:
        channel = PhoneChannel(device(phone.url))
        await channel.close()
        return await channel.send(OutgoingMessage(ADA, MORNING))

    assert asyncio.run(run()).result is SendResult.LATER
