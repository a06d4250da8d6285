"""Posting to an ASGI application without a network, so that ten thousand posts take seconds."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlsplit

from starlette.types import ASGIApp, Message


@dataclass(frozen=True)
class Answered:
    """What came back."""

    status: int
    body: bytes


async def post(
    app: ASGIApp, path: str, body: bytes, headers: Mapping[str, str], method: str = "POST"
) -> Answered:
    """Post as a server would hand it on; ``path`` may have a query."""
    parts = urlsplit(path)
    scope: dict[str, Any] = {
        "type": "http",
        "asgi": {"version": "3.0"},
        "http_version": "1.1",
        "method": method,
        "scheme": "http",
        "server": ("127.0.0.1", 8080),
        "client": ("127.0.0.1", 50000),
        "root_path": "",
        "path": parts.path,
        "raw_path": parts.path.encode(),
        "query_string": parts.query.encode(),
        "headers": [
            (name.lower().encode(), value.encode("utf-8")) for name, value in headers.items()
        ],
    }
    arriving: list[Message] = [{"type": "http.request", "body": body, "more_body": False}]
    sent: list[Message] = []

    async def receive() -> Message:
        return arriving.pop(0) if arriving else {"type": "http.disconnect"}

    async def send(message: Message) -> None:
        sent.append(message)

    await app(scope, receive, send)
    return Answered(sent[0]["status"], b"".join(part.get("body", b"") for part in sent[1:]))
