"""What the carrier's answers and error numbers mean.

Numbers: "List of errors", www.twilio.com/docs/api/errors, of which the pages of 21602, 21608,
21610, 21635 and the list in github.com/TundraSoft/tundra-connect, wiki "Twilio Errors", were read
(20003, 20429, 21211, 21606, 21608, 21610, 21612, 21614); 30003 and 30006 as explained in
github.com/tl-its-umich-edu/remote-office-hours-queue, issue 491; 30004, 30005 and 30007 from
memory.
"""

from collections.abc import Mapping
from datetime import timedelta

import httpx

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.outcome import failed
from bot.channels.reports import Delivery
from bot.channels.send_error import SendError

ERRORS_BY_NUMBER: Mapping[int, SendError] = {
    20003: SendError.TOKEN_REFUSED,
    20429: SendError.FLOOD,
    21211: SendError.NO_SUCH_NUMBER,
    21602: SendError.BLANK,
    21606: SendError.REFUSED,
    21608: SendError.REFUSED,
    21610: SendError.OPTED_OUT,
    21612: SendError.REFUSED,
    21614: SendError.NO_TEXTS,
    21635: SendError.NO_TEXTS,
    30003: SendError.CARRIER_FAILED,
    30004: SendError.BLOCKED,
    30005: SendError.NO_SUCH_NUMBER,
    30006: SendError.NO_TEXTS,
    30007: SendError.REFUSED,
}

DELIVERIES: Mapping[str, Delivery] = {
    "accepted": Delivery.HANDED_OVER,
    "scheduled": Delivery.HANDED_OVER,
    "queued": Delivery.HANDED_OVER,
    "sending": Delivery.HANDED_OVER,
    "sent": Delivery.HANDED_OVER,
    "delivered": Delivery.DELIVERED,
    "read": Delivery.DELIVERED,
    "undelivered": Delivery.FAILED,
    "failed": Delivery.FAILED,
    "canceled": Delivery.FAILED,
}
"""The statuses of a message out: "Outbound Message Status in Status Callbacks",
www.twilio.com/docs/messaging/guides/outbound-message-status-in-status-callbacks."""


def outcome_of_refusal(answer: httpx.Response) -> SendOutcome:
    """Say what became of a message from the API's answer to it."""
    said = _read(answer)
    if answer.is_success:
        sid = said.get("sid")
        if isinstance(sid, str) and sid:
            return SendOutcome(SendResult.SENT, carrier_id=sid)
        return failed(SendError.ODD_ANSWER, f"HTTP {answer.status_code} without a message's id")
    words = f"{said.get('code', answer.status_code)} {said.get('message', '')}".strip()
    return failed(_send_error(answer.status_code, said.get("code")), words, _wait(answer))


def error_of_number(number: object) -> SendError | None:
    """Find an error's place in the closed list; None for a number that is not in the table."""
    try:
        return ERRORS_BY_NUMBER.get(int(str(number)))
    except ValueError:
        return None


def _send_error(status: int, number: object) -> SendError:
    known = error_of_number(number)
    if known is not None:
        return known
    if status == httpx.codes.TOO_MANY_REQUESTS:
        return SendError.FLOOD
    if status in (httpx.codes.UNAUTHORIZED, httpx.codes.FORBIDDEN):
        return SendError.TOKEN_REFUSED
    if status >= httpx.codes.INTERNAL_SERVER_ERROR:
        return SendError.CARRIER_FAILED
    return SendError.REFUSED if status >= httpx.codes.BAD_REQUEST else SendError.ODD_ANSWER


def _read(answer: httpx.Response) -> dict[str, object]:
    try:
        said = answer.json()
    except ValueError:
        return {}
    return said if isinstance(said, dict) else {}


def _wait(answer: httpx.Response) -> timedelta | None:
    asked = answer.headers.get("retry-after", "")
    return timedelta(seconds=min(int(asked), 86_400)) if asked.isdecimal() else None
