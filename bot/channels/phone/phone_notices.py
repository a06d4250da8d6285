"""The phone's notices over HTTP: whether the phone signed them, and what they say.

Events, their fields and "Payload Signing": "Webhooks", docs.sms-gate.app
(github.com/android-sms-gateway/docs-web, docs/features/webhooks.md): an HMAC with SHA-256 of the
body and the time of sending, in hexadecimal.
"""

import hashlib
import hmac
import json
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from typing import Any

from android_sms_gateway.enums import WebhookEvent
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from bot.channels.channel import Clock, IncomingMessage, Receive
from bot.channels.phone.device import PhoneDevice
from bot.channels.reports import Delivery, DeliveryReport, Report
from bot.channels.send_error import SendError
from bot.channels.sms.phone_number import international
from bot.channels.traits import SMS
from bot.channels.webhook_limits import Bucket, NoBody, body_of
from bot.program_log import log_of
from scheduling.plain_text import storable

EVENTS: Mapping[WebhookEvent, Delivery | None] = {
    WebhookEvent.SMS_RECEIVED: None,
    WebhookEvent.SMS_SENT: Delivery.HANDED_OVER,
    WebhookEvent.SMS_DELIVERED: Delivery.DELIVERED,
    WebhookEvent.SMS_FAILED: Delivery.FAILED,
}
"""The events that we ask for, and what each says of a message out."""

_REASONS = {
    "invalid number": SendError.NO_SUCH_NUMBER,
    "limit_exceeded": SendError.FLOOD,
}
"""Words in a failure's reason ("Status Tracking" and "FAQ - Errors" of the same documents)."""


class UnreadableEventError(ValueError):
    """A notice that is not as the documents say."""


def event_of(
    body: bytes, region: str | None, now: datetime
) -> IncomingMessage | DeliveryReport | None:
    """Read a notice; None for one of an event, or from a sender, that is nothing to us.

    Raises:
        UnreadableEventError: it is not as the documents say.
    """
    try:
        said = json.loads(body)
        event, payload = str(said["event"]), said["payload"]
        known = next((one for one in EVENTS if one.value == event), None)
        if known is None:
            return None
        delivery = EVENTS[known]
        return _message(payload, region) if delivery is None else _report(payload, delivery, now)
    except Exception as error:  # noqa: BLE001 - whatever it was, it would come up for ever
        raise UnreadableEventError(type(error).__name__) from None


def _message(payload: Mapping[str, Any], region: str | None) -> IncomingMessage | None:
    sender = international(_text(payload, "phoneNumber"), region)
    text, received = _text(payload, "message"), _text(payload, "receivedAt")
    if sender is None:
        return None
    at = datetime.fromisoformat(received)
    if at.tzinfo is None:
        raise ValueError("a time without a zone")
    # The app makes its id of the words alone, so two equal texts of two days would have one.
    own = hashlib.sha256("\0".join([sender, received, text]).encode()).hexdigest()
    return IncomingMessage(SMS.name, sender, f"phone:{own[:32]}", text, at.astimezone(UTC))


def _report(payload: Mapping[str, Any], delivery: Delivery, now: datetime) -> DeliveryReport:
    send_error = None
    if delivery is Delivery.FAILED:
        reason = str(payload.get("reason", "")).lower()
        found = (what for words, what in _REASONS.items() if words in reason)
        send_error = next(found, SendError.CARRIER_FAILED)
    return DeliveryReport(SMS.name, _text(payload, "messageId"), delivery, now, error=send_error)


def _text(payload: Mapping[str, Any], name: str) -> str:
    value = payload[name]
    if not isinstance(value, str):
        raise TypeError(name)
    return storable(value)


log = log_of(__name__)

EVENT_PATH = "/phone/event"


class PhoneNotices:
    """Takes the phone's notices in; what it did not sign changes nothing and is told nothing."""

    def __init__(self, device: PhoneDevice, report: Report, clock: Clock) -> None:
        self._device = device
        self._report = report
        self._clock = clock
        self._unsigned = Bucket(a_second=5, at_once=50)
        self._signed = Bucket(a_second=10, at_once=100)
        self.receive: Receive | None = None

    def routes(self) -> list[Route]:
        """Give the address."""
        return [Route(EVENT_PATH, self._take, methods=["POST"])]

    async def _take(self, request: Request) -> Response:
        now = self._clock()
        try:
            body = await body_of(request)
        except NoBody as none:
            return self._refused(none.status)
        if not is_signed_by_phone(body, request.headers, self._device.signing_key, now):
            return self._refused(403)
        if not self._signed.take(now):
            return Response(status_code=429)
        try:
            event = event_of(body, self._device.region, now)
        except UnreadableEventError as error:
            # Told that it was well, the phone does not send it again for two days.
            log.warning("left out an unreadable notice", error=str(error))
            return Response(status_code=204)
        return await self._handed_on(event)

    async def _handed_on(self, event: IncomingMessage | DeliveryReport | None) -> Response:
        try:
            if isinstance(event, DeliveryReport):
                await self._report(event)
            elif event is not None:
                if self.receive is None:
                    return Response(status_code=503)
                await self.receive(event)
        except Exception as error:  # noqa: BLE001 - whatever went wrong, it is not stored
            log.warning("a notice was not stored", error=type(error).__name__)
            return Response(status_code=503)
        return Response(status_code=204)

    def _refused(self, status: int) -> Response:
        if not self._unsigned.take(self._clock()):
            return Response(status_code=429)
        log.warning("a notice was refused", channel=SMS.name, status=status)
        return Response(status_code=status)


FRESH = timedelta(days=3)
"""How old a notice may be: the app tries again for about two days (the page named above). What is
replayed within them is known by its id and changes nothing."""

AHEAD = timedelta(minutes=5)


def is_signed_by_phone(body: bytes, headers: Mapping[str, str], key: str, now: datetime) -> bool:
    """Tell whether the phone signed this body, and lately."""
    at = headers.get("x-timestamp", "")
    if not key or not (at.isascii() and at.isdecimal() and len(at) <= 11):
        return False
    right = hmac.new(key.encode(), body + at.encode(), hashlib.sha256).hexdigest()
    signed = hmac.compare_digest(headers.get("x-signature", "").encode(), right.encode())
    return signed and -AHEAD <= now - datetime.fromtimestamp(int(at), UTC) <= FRESH
