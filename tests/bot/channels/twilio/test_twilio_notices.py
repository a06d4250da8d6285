"""Messages in and reports come over HTTP; only what the carrier signed changes anything."""

import asyncio
import base64
import hashlib
import hmac
from datetime import timedelta
from urllib.parse import urlencode

import pytest
from sqlalchemy import Engine, func, select

from bot.channels.channel import IncomingMessage
from bot.channels.reports import Delivery, DeliveryReport
from bot.channels.send_error import SendError
from bot.delivery import inbox
from bot.delivery.message_tables import InboxRow
from deploy.standins.message_api_standin import ACCOUNT
from scheduling.records.engine import reading, writing
from tests.bot.channels.asgi_posts import Answered, post
from tests.bot.channels.twilio.noticing import (
    ADA,
    AT,
    SID,
    Receiver,
    headers,
    notice,
    status_path,
    tell,
)

MESSAGE = "/twilio/message"


def told(
    receiver: Receiver, path: str, *notices: dict[str, str], heard: bool = True
) -> list[Answered]:
    async def run() -> list[Answered]:
        async with receiver.open(heard=heard) as app:
            return [await tell(app, path, fields) for fields in notices]

    return asyncio.run(run())


def test_a_reply_reaches_the_desk() -> None:
    receiver = Receiver()
    (answered,) = told(receiver, MESSAGE, notice())
    assert receiver.messages == [IncomingMessage("sms", ADA, SID, "4a eggs, 5b no eggs", AT)]
    assert answered.status == 200
    assert answered.body.endswith(b"<Response></Response>")


def test_letters_of_any_alphabet_and_line_ends_arrive_as_written() -> None:
    receiver = Receiver()
    text = "4b \u00bd frame\n5a \N{HONEYBEE} Большой & + % ="
    told(receiver, MESSAGE, notice(Body=text))
    assert [message.text for message in receiver.messages] == [text]


def test_a_picture_without_words_comes_empty_so_that_it_can_be_answered() -> None:
    receiver = Receiver()
    told(receiver, MESSAGE, notice(Body="", NumMedia="1"))
    assert [message.text for message in receiver.messages] == [""]


def test_new_fields_of_the_carrier_s_do_no_harm() -> None:
    receiver = Receiver()
    told(receiver, MESSAGE, notice(Invented="field", Zip="", FromCity="RIVER"))
    assert len(receiver.messages) == 1


@pytest.mark.parametrize("sender", ["88022", "YARDS", "+0123456789", "+1", ""])
def test_who_cannot_be_answered_is_nobody_of_ours(sender: str) -> None:
    receiver = Receiver()
    (answered,) = told(receiver, MESSAGE, notice(From=sender))
    assert (answered.status, receiver.messages) == (200, [])


def test_a_message_that_was_not_stored_is_not_taken() -> None:
    receiver = Receiver(full=True)
    assert [one.status for one in told(receiver, MESSAGE, notice())] == [503]
    assert [one.status for one in told(receiver, status_path(), notice(MessageStatus="sent"))] == [
        503
    ]


def test_while_nobody_listens_the_carrier_is_told_so() -> None:
    receiver = Receiver()
    assert [one.status for one in told(receiver, MESSAGE, notice(), heard=False)] == [503]


# "Outbound Message Status in Status Callbacks", see bot/channels/twilio/refusals.py.
@pytest.mark.parametrize(
    ("status", "number", "delivery", "send_error"),
    [
        ("sent", "", Delivery.HANDED_OVER, None),
        ("delivered", "", Delivery.DELIVERED, None),
        ("undelivered", "30006", Delivery.FAILED, SendError.NO_TEXTS),
        ("failed", "21610", Delivery.FAILED, SendError.OPTED_OUT),
        ("failed", "what?", Delivery.FAILED, None),
        ("delivered", "21610", Delivery.DELIVERED, None),
    ],
)
def test_how_a_message_out_fared_is_reported_under_our_own_key(
    status: str, number: str, delivery: Delivery, send_error: SendError | None
) -> None:
    receiver = Receiver()
    fields = notice(MessageStatus=status) | ({"ErrorCode": number} if number else {})
    (answered,) = told(receiver, status_path(key="17/0"), fields)
    assert receiver.reports == [DeliveryReport("sms", SID, delivery, AT, "17/0", send_error)]
    assert (answered.status, answered.body) == (204, b"")


def test_a_status_that_nobody_knows_yet_changes_nothing() -> None:
    receiver = Receiver()
    assert [one.status for one in told(receiver, status_path(), notice(MessageStatus="new"))] == [
        204
    ]
    assert receiver.reports == []


@pytest.mark.parametrize(
    "age", [timedelta(days=3, seconds=1), timedelta(days=400), -timedelta(minutes=6)]
)
def test_a_stale_report_changes_nothing(age: timedelta) -> None:
    receiver = Receiver()
    (answered,) = told(receiver, status_path(AT - age), notice(MessageStatus="failed"))
    assert (answered, receiver.reports) == (Answered(403, b""), [])


def test_a_report_on_another_message_s_address_is_forged() -> None:
    async def run() -> Answered:
        async with receiver.open() as app:
            fields = notice(MessageStatus="delivered")
            signed = headers(status_path(key="17/0"), fields)
            return await post(app, status_path(key="18/0"), urlencode(fields).encode(), signed)

    receiver = Receiver()
    assert asyncio.run(run()) == Answered(403, b"")
    assert receiver.reports == []


OTHER_ACCOUNTS = ["AC" + "f" * 32, ACCOUNT.lower(), "", "é"]


@pytest.mark.parametrize("account", OTHER_ACCOUNTS)
def test_what_is_of_another_account_changes_nothing_though_it_is_signed(account: str) -> None:
    """As with one signing key for several accounts, of which one is somebody else's."""
    receiver = Receiver()
    fields = notice(AccountSid=account, MessageStatus="delivered")
    for path in (MESSAGE, status_path()):
        assert told(receiver, path, fields) == [Answered(403, b"")]
    assert (receiver.messages, receiver.reports) == ([], [])


def test_a_replayed_message_is_worked_through_once(engine: Engine) -> None:
    class Storing(Receiver):
        async def receive(self, message: IncomingMessage) -> None:
            with writing(engine) as session:
                row = inbox.accept(session, message, self.now)
                if row is not None:
                    inbox.in_turn(session, row).state = inbox.InboxState.DONE
                    self.messages.append(message)

    receiver = Storing()
    assert {one.status for one in told(receiver, MESSAGE, *[notice()] * 20)} == {200}
    assert len(receiver.messages) == 1
    with reading(engine) as session:
        assert session.scalar(select(func.count(InboxRow.id))) == 1


def test_the_newer_signature_counts_with_the_shared_key() -> None:
    async def run() -> Answered:
        async with receiver.open(shared_key="invented-shared-key") as app:
            fields = notice()
            signed = "https://yards.example/bot" + MESSAGE
            signed += "".join(name + fields[name] for name in sorted(fields))
            digest = hmac.new(b"invented-shared-key", signed.encode(), hashlib.sha256).digest()
            given = {
                "X-Twilio-Signature": base64.b64encode(digest).decode(),
                "X-Twilio-Webhooks-Signature-Settings": "key=k1,algorithm=HMAC_SHA256",
            }
            return await post(app, MESSAGE, urlencode(fields).encode(), given)

    receiver = Receiver()
    assert asyncio.run(run()).status == 200
    assert len(receiver.messages) == 1


@pytest.mark.parametrize("method", ["GET", "PUT", "DELETE", "HEAD"])
def test_only_posts_are_taken(method: str) -> None:
    async def run() -> Answered:
        async with receiver.open() as app:
            fields = notice()
            body = urlencode(fields).encode()
            return await post(app, MESSAGE, body, headers(MESSAGE, fields), method)

    receiver = Receiver()
    assert asyncio.run(run()).status == 405
    assert receiver.messages == []


def test_forged_notices_cannot_crowd_out_the_carrier_s() -> None:
    async def run() -> tuple[list[int], Answered]:
        async with receiver.open() as app:
            forged = [await post(app, MESSAGE, b"Body=x", {}) for _ in range(500)]
            return [one.status for one in forged], await tell(app, MESSAGE, notice())

    receiver = Receiver()
    statuses, answered = asyncio.run(run())
    assert (statuses.count(403), statuses.count(429)) == (50, 450)
    assert answered.status == 200
    assert len(receiver.messages) == 1


def test_more_notices_than_a_carrier_sends_are_put_off() -> None:
    receiver = Receiver()
    many = [notice(MessageSid=f"SM{number:032x}") for number in range(250)]
    statuses = [one.status for one in told(receiver, MESSAGE, *many)]
    assert (statuses.count(200), statuses.count(429)) == (200, 50)
    receiver.now = AT + timedelta(seconds=1)
    assert [one.status for one in told(receiver, MESSAGE, *many[:50])] == [200] * 50
