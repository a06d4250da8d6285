"""The carrier's notices over HTTP: messages in, and how messages out fared; and their signature.

Signed is the address as the carrier called it, then each field's name and value, fields in the
order of their names; an HMAC under the account's token, in base64. With SHA-1; or, if a header says
so, with SHA-256 under a shared key. Sources: "Secure webhooks",
www.twilio.com/docs/usage/webhooks/webhooks-security; "Validating webhook signatures",
github.com/twilio/twilio-node, examples/WebhookSignatureValidation.md.
"""

import base64
import hashlib
import hmac
import re
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime, timedelta
from typing import Any
from urllib.parse import parse_qsl, urlencode, urlsplit, urlunsplit

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from bot.channels.channel import Clock, IncomingMessage, Receive
from bot.channels.reports import Delivery, DeliveryReport, Report
from bot.channels.sms.phone_number import is_number
from bot.channels.traits import SMS
from bot.channels.twilio.refusals import DELIVERIES, error_of_number
from bot.channels.twilio.twilio_account import TwilioAccount
from bot.channels.webhook_limits import Bucket, NoBody, body_of
from bot.program_log import log_of

log = log_of(__name__)

Fields = Sequence[tuple[str, str]]
"""Names and values as they were posted."""

SIGNATURE = "x-twilio-signature"
SETTINGS = "x-twilio-webhooks-signature-settings"

_DEFAULT_PORTS = {"https": 443, "http": 80}


def is_signed_by_twilio(
    url: str, fields: Fields, headers: Mapping[str, str], token: str, shared_key: str = ""
) -> bool:
    """Tell whether the carrier signed these fields for this address.

    Args:
        url: the address as the carrier called it, with its query.
        fields: what was posted.
        headers: the request's, by names in small letters.
        token: the account's secret.
        shared_key: the secret of signatures with SHA-256; without it there are none.
    """
    settings = headers.get(SETTINGS, "")
    key, digest = (shared_key, hashlib.sha256) if settings else (token, hashlib.sha1)
    if not key or (settings and _algorithm(settings) != "HMAC_SHA256"):
        return False
    said = headers.get(SIGNATURE, "").encode()
    right = [_signature(one, fields, key, digest) for one in _with_and_without_port(url)]
    return any(hmac.compare_digest(said, one) for one in right)


def _algorithm(settings: str) -> str:
    """Read "key=...,algorithm=HMAC_SHA256"."""
    parts = (part.partition("=") for part in settings.split(","))
    found = [value.strip().upper() for name, _, value in parts if name.strip() == "algorithm"]
    return found[0] if len(found) == 1 else ""


def _signature(url: str, fields: Fields, key: str, digest: Callable[[], Any]) -> bytes:
    # Each field once, by name and value, as the carrier's own package does.
    signed = url + "".join(name + value for name, value in sorted(set(fields)))
    return base64.b64encode(hmac.new(key.encode(), signed.encode(), digest).digest())


def _with_and_without_port(url: str) -> set[str]:
    """Give both spellings of an address: the carrier has signed either."""
    parts = urlsplit(url)
    port = parts.port or _DEFAULT_PORTS[parts.scheme]
    bare = parts.netloc.removesuffix(f":{port}")
    hosts = (bare, f"{bare}:{port}")
    return {urlunsplit(parts._replace(netloc=host)) for host in hosts}


MESSAGE_PATH, STATUS_PATH = "/twilio/message", "/twilio/status"

FRESH = timedelta(days=3)
"""How old a status notice may be. The carrier gives a message up after some hours (from memory)."""

AHEAD = timedelta(minutes=5)
"""How far our own clock may have been set back since a message went out."""

MOST_FIELDS = 200
"""A notice has some thirty fields, and its maker may add some."""

_SID = re.compile(r"(SM|MM)[0-9a-f]{32}")

_NOTHING_TO_SAY = '<?xml version="1.0" encoding="UTF-8"?><Response></Response>'
"""Tells the carrier to send no words of its own ("Messaging Webhooks",
www.twilio.com/docs/usage/webhooks/sms-webhooks)."""


class TwilioNotices:
    """Takes notices in; until somebody listens, the carrier is told to come again.

    What is not signed, too old, too long or too much changes nothing, and its sender is told
    nothing but a number of HTTP. The unsigned have an allowance of their own, so that they can use
    up nothing of the carrier's.
    """

    def __init__(self, account: TwilioAccount, report: Report, clock: Clock) -> None:
        self._account = account
        self._report = report
        self._clock = clock
        self._signed = Bucket(a_second=50, at_once=200)
        self._unsigned = Bucket(a_second=5, at_once=50)
        self.receive: Receive | None = None

    def routes(self) -> list[Route]:
        """Give the two addresses."""
        return [
            Route(MESSAGE_PATH, self._take_message, methods=["POST"]),
            Route(STATUS_PATH, self._take_status, methods=["POST"]),
        ]

    def status_url(self, key: str) -> str:
        """Where the carrier tells of one message; its signature covers our key and the time."""
        query = urlencode({"key": key, "at": int(self._clock().timestamp())})
        return f"{self._account.public_url.rstrip('/')}{STATUS_PATH}?{query}"

    async def _take_message(self, request: Request) -> Response:
        fields = await self._signed_fields(request)
        if isinstance(fields, Response):
            return fields
        said = dict(fields)
        sid, sender = said.get("MessageSid", ""), said.get("From", "")
        if not _SID.fullmatch(sid) or not self._is_of_account(said):
            return Response(status_code=403)
        if not is_number(sender):
            # A short code or a name: nobody of ours, and nobody to answer.
            return _thanks()
        message = IncomingMessage(SMS.name, sender, sid, said.get("Body", ""), self._clock())
        return await self._handed_on(message)

    async def _handed_on(self, message: IncomingMessage) -> Response:
        if self.receive is None:
            return Response(status_code=503)
        try:
            await self.receive(message)
        except Exception as error:  # noqa: BLE001 - whatever went wrong, it is not stored
            log.warning("a message was not stored", error=type(error).__name__)
            return Response(status_code=503)
        return _thanks()

    async def _take_status(self, request: Request) -> Response:
        fields = await self._signed_fields(request)
        if isinstance(fields, Response):
            return fields
        said = dict(fields)
        sid, delivery = said.get("MessageSid", ""), DELIVERIES.get(said.get("MessageStatus", ""))
        if not _SID.fullmatch(sid) or not (self._is_of_account(said) and self._is_fresh(request)):
            return Response(status_code=403)
        if delivery is not None:
            key = request.query_params.get("key", "")
            send_error = error_of_number(said.get("ErrorCode"))
            report = DeliveryReport(
                SMS.name, sid, delivery, self._clock(), key,
                send_error if delivery is Delivery.FAILED else None,
            )  # fmt: skip
            return await self._reported(report)
        return Response(status_code=204)

    async def _reported(self, report: DeliveryReport) -> Response:
        try:
            await self._report(report)
        except Exception as error:  # noqa: BLE001 - as above
            log.warning("a report was not stored", error=type(error).__name__)
            return Response(status_code=503)
        return Response(status_code=204)

    def _is_of_account(self, said: Mapping[str, str]) -> bool:
        """Tell whether a notice is of our account: compared in steady time, as its signature is."""
        named = said.get("AccountSid", "")
        return hmac.compare_digest(named.encode(), self._account.sid.encode())

    def _is_fresh(self, request: Request) -> bool:
        said = request.query_params.get("at", "")
        if not (said.isascii() and said.isdecimal() and len(said) <= 11):
            return False
        age = self._clock() - datetime.fromtimestamp(int(said), UTC)
        return -AHEAD <= age <= FRESH

    async def _signed_fields(self, request: Request) -> Fields | Response:
        try:
            fields = _fields(await body_of(request))
        except NoBody as none:
            return self._refused(none.status)
        if fields is None or not self._is_ours(request, fields):
            return self._refused(403)
        return fields if self._signed.take(self._clock()) else Response(status_code=429)

    def _is_ours(self, request: Request, fields: Fields) -> bool:
        query = request.scope["query_string"].decode("latin-1")
        path = request.scope.get("raw_path", request.url.path.encode()).decode("latin-1")
        called = f"{self._account.public_url.rstrip('/')}{path}" + (f"?{query}" if query else "")
        account = self._account
        return is_signed_by_twilio(
            called, fields, request.headers, account.token, account.shared_key
        )

    def _refused(self, status: int) -> Response:
        if not self._unsigned.take(self._clock()):
            return Response(status_code=429)
        log.warning("a notice was refused", channel=SMS.name, status=status)
        return Response(status_code=status)


def _fields(body: bytes) -> Fields | None:
    try:
        return parse_qsl(
            body.decode("ascii"),
            keep_blank_values=True,
            strict_parsing=bool(body),
            errors="strict",
            max_num_fields=MOST_FIELDS,
        )
    except ValueError:
        return None


def _thanks() -> Response:
    return Response(_NOTHING_TO_SAY, media_type="text/xml")
