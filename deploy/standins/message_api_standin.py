"""A stand-in for the carrier's message API: strict about what its documents ask for.

"Message resource", www.twilio.com/docs/messaging/api/message-resource, and the carrier's own
package (twilio 9.13): the path, the names of the fields, the account as user and its token as
password; 201 and the message as JSON, or an error's number and words.
"""

import asyncio
import base64
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from aiohttp import web

from deploy.standins.local_http import serving

ACCOUNT, TOKEN = "AC" + "0" * 32, "invented-token-0451"
SENDER = "+12025550100"


@dataclass(frozen=True)
class Answer:
    """An answer that is given instead of the right one; a drop cuts the line."""

    status: int = 201
    number: int | None = None
    body: str | None = None
    headers: dict[str, str] = field(default_factory=dict)
    drop: bool = False
    after: float = 0.0


@dataclass
class MessageApi:
    """What was posted, and what is to be answered next."""

    url: str = ""
    posted: list[dict[str, str]] = field(default_factory=list)
    next_answers: list[Answer] = field(default_factory=list)
    taken: int = 0

    async def handle(self, request: web.Request) -> web.StreamResponse:
        """Take one text that is posted, or answer it as told."""
        form = {name: str(value) for name, value in (await request.post()).items()}
        answer = self.next_answers.pop(0) if self.next_answers else None
        if answer is not None and answer.drop:
            assert request.transport is not None
            request.transport.abort()
        if answer is not None and answer.after:
            await asyncio.sleep(answer.after)
        if answer is not None and (answer.status != 201 or answer.body is not None):
            return _given(answer)
        refusal = self._refusal(request, form)
        if refusal is not None:
            return _given(refusal)
        self.posted.append(form)
        self.taken += 1
        return web.json_response({"sid": self.sid(self.taken), "status": "queued"}, status=201)

    def _refusal(self, request: web.Request, form: dict[str, str]) -> Answer | None:
        right = "Basic " + base64.b64encode(f"{ACCOUNT}:{TOKEN}".encode()).decode()
        if request.headers.get("Authorization") != right:
            return Answer(401, 20003)
        if not re.fullmatch(r"\+[1-9]\d{1,14}", form.get("To", "")):
            return Answer(400, 21211)
        if not form.get("Body"):
            return Answer(400, 21602)
        return Answer(400, 21617) if len(form["Body"]) > 1600 else None

    @staticmethod
    def sid(number: int) -> str:
        """The carrier's own id of the text with this number, counted from 1."""
        return f"SM{number:032x}"


def _given(answer: Answer) -> web.Response:
    if answer.body is not None:
        return web.Response(text=answer.body, status=answer.status, headers=answer.headers)
    said = {"code": answer.number, "message": "invented words", "status": answer.status}
    return web.json_response(said, status=answer.status, headers=answer.headers)


@contextmanager
def running_message_api() -> Iterator[MessageApi]:
    """Run the carrier on a free port, in a thread of its own."""
    api = MessageApi()
    app = web.Application()
    app.router.add_post(f"/2010-04-01/Accounts/{ACCOUNT}/Messages.json", api.handle)
    with serving(app) as api.url:
        yield api
