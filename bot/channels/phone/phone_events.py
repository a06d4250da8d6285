"""What the phone's notices say.

Events and their fields: "Webhooks", docs.sms-gate.app (github.com/android-sms-gateway/docs-web,
docs/features/webhooks.md).
"""

import hashlib
import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from android_sms_gateway.enums import WebhookEvent

from bot.channels.channel import IncomingMessage
from bot.channels.reports import Delivery, DeliveryReport
from bot.channels.send_error import SendError
from bot.channels.sms.phone_number import CHANNEL_NAME, international

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
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
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
    return IncomingMessage(CHANNEL_NAME, sender, f"phone:{own[:32]}", text, at.astimezone(UTC))


def _report(payload: Mapping[str, Any], delivery: Delivery, now: datetime) -> DeliveryReport:
    send_error = None
    if delivery is Delivery.FAILED:
        reason = str(payload.get("reason", "")).lower()
        found = (what for words, what in _REASONS.items() if words in reason)
        send_error = next(found, SendError.CARRIER_FAILED)
    return DeliveryReport(
        CHANNEL_NAME, _text(payload, "messageId"), delivery, now, error=send_error
    )


def _text(payload: Mapping[str, Any], name: str) -> str:
    value = payload[name]
    if not isinstance(value, str):
        raise TypeError(name)
    return value
