"""A stand-in for the phone's app in its local mode, as strict as its documents say.

github.com/android-sms-gateway/docs-web: docs/features/sending-messages.md (fields, E.164 numbers,
own ids), docs/features/status-tracking.md (states), docs/faq/errors.md (the limit),
docs/features/webhooks.md (registering, signing) and docs/faq/webhooks.md (https, or the phone's
loopback). Paths as the app's own client (android-sms-gateway 4.3) calls them. What is answered to
an id that is known already, the documents do not say: the stand-in can do it in two ways.
"""

import base64
import hashlib
import hmac
import json
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from aiohttp import web

from bot.channels.sms.segments import segments
from deploy.standins.local_http import serving

LOGIN, PASSWORD, KEY = "sms", "invented-password", "invented-signing-key"
AT = datetime(2027, 5, 12, 10, 30, tzinfo=UTC)


@dataclass
class Phone:
    """The phone: what it sent, where its notices go, and what it does wrong next."""

    url: str = ""
    now: datetime = AT
    repeats_are_refused: bool = True
    states: dict[str, str] = field(default_factory=dict)
    sent: list[tuple[str, str]] = field(default_factory=list)
    hooks: dict[str, dict[str, Any]] = field(default_factory=dict)
    next_statuses: list[int] = field(default_factory=list)
    drops_answers: int = 0
    _spent: list[tuple[datetime, int]] = field(default_factory=list)

    async def take(self, request: web.Request) -> web.StreamResponse:
        """Take one text to send."""
        problem = self._problem(request)
        if problem is not None:
            return problem
        said = await request.json()
        if not re.fullmatch(r"\+[1-9]\d{1,14}", said["phoneNumbers"][0]):
            return web.json_response({"message": "invalid number"}, status=400)
        own = said["id"]
        if own in self.states and self.repeats_are_refused:
            return web.json_response({"message": "id is known"}, status=409)
        if own not in self.states:
            self._send(own, said["phoneNumbers"][0], said["textMessage"]["text"])
        if self.drops_answers:
            self.drops_answers -= 1
            assert request.transport is not None
            request.transport.abort()
        return web.json_response(self._state(own), status=202)

    def _send(self, own: str, number: str, text: str) -> None:
        """Send, unless Android's limit is spent: 30 segments in 30 minutes."""
        lately = [count for at, count in self._spent if self.now - at < timedelta(minutes=30)]
        fits = sum(lately) + segments(text) <= 30
        self.states[own] = "Sent" if fits else "Failed"
        if fits:
            self._spent.append((self.now, segments(text)))
            self.sent.append((number, text))

    async def tell(self, request: web.Request) -> web.StreamResponse:
        """Tell where a text stands."""
        problem = self._problem(request)
        if problem is not None:
            return problem
        own = request.match_info["id"]
        if own not in self.states:
            return web.json_response({"message": "not found"}, status=404)
        return web.json_response(self._state(own))

    async def hook(self, request: web.Request) -> web.StreamResponse:
        """Register where notices are to be posted."""
        problem = self._problem(request)
        if problem is not None:
            return problem
        said = await request.json()
        if not re.match(r"https://|http://127\.0\.0\.1[:/]", said["url"]):
            return web.json_response({"message": "https only"}, status=400)
        self.hooks[said["id"]] = said
        return web.json_response(said, status=201)

    def _state(self, own: str) -> dict[str, Any]:
        state = self.states[own]
        return {"id": own, "state": state, "recipients": [{"phoneNumber": "+1", "state": state}]}

    def _problem(self, request: web.Request) -> web.Response | None:
        right = "Basic " + base64.b64encode(f"{LOGIN}:{PASSWORD}".encode()).decode()
        if request.headers.get("Authorization") != right:
            return web.json_response({"message": "unauthorized"}, status=401)
        if self.next_statuses:
            return web.json_response({"message": "no"}, status=self.next_statuses.pop(0))
        return None


@contextmanager
def running_phone() -> Iterator[Phone]:
    """Run the phone on a free port, in a thread of its own."""
    phone = Phone()
    app = web.Application()
    app.router.add_post("/messages", phone.take)
    app.router.add_get("/messages/{id}", phone.tell)
    app.router.add_post("/webhooks", phone.hook)
    with serving(app) as phone.url:
        yield phone


def signed(body: bytes, at: datetime = AT, key: str = KEY) -> dict[str, str]:
    """Headers as "Payload Signing" says: body and time, HMAC with SHA-256, hexadecimal."""
    stamp = str(int(at.timestamp()))
    digest = hmac.new(key.encode(), body + stamp.encode(), hashlib.sha256).hexdigest()
    return {"X-Signature": digest, "X-Timestamp": stamp, "Content-Type": "application/json"}


def event(name: str, **payload: Any) -> bytes:
    """A notice, its fields as the documents show them."""
    said = {"deviceId": "ffffffffceb0b1db", "event": name, "id": "Ey6ECgOkVVFjz3CL48B8C",
            "payload": payload, "webhookId": "x"}  # fmt: skip
    return json.dumps(said).encode()


def text_in(text: str = "4a eggs, 5b no eggs", sender: str = "6505551212", **more: Any) -> bytes:
    """A notice that a text came in; further fields replace those of the documents."""
    return event(
        "sms:received", messageId="abc123", message=text, phoneNumber=sender, simNumber=1,
        **{"receivedAt": "2027-05-12T05:29:11.000-05:00", **more},
    )  # fmt: skip
