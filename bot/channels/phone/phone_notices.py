"""The phone's notices over HTTP, and whether the phone signed them.

"Payload Signing", docs.sms-gate.app (github.com/android-sms-gateway/docs-web,
docs/features/webhooks.md): an HMAC with SHA-256 of the body and the time of sending, in
hexadecimal.
"""

import hashlib
import hmac
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from bot.channels.bucket import Bucket
from bot.channels.channel import IncomingMessage, Receive
from bot.channels.clock import Clock
from bot.channels.phone.device import PhoneDevice
from bot.channels.phone.phone_events import UnreadableEventError, event_of
from bot.channels.reports import DeliveryReport, Report
from bot.channels.request_body import NoBody, body_of
from bot.channels.sms.phone_number import CHANNEL_NAME
from bot.program_log import log_of

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
        log.warning("a notice was refused", channel=CHANNEL_NAME, status=status)
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
