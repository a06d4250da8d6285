"""Notices as the carrier posts them, and a channel that takes them in."""

import asyncio
import base64
import hashlib
import hmac
from collections.abc import AsyncIterator, Mapping
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from urllib.parse import urlencode

from starlette.applications import Starlette

from bot.channels.channel import IncomingMessage
from bot.channels.reports import DeliveryReport
from bot.channels.twilio.channel import TwilioChannel
from bot.channels.twilio.twilio_account import TwilioAccount
from deploy.standins.message_api_standin import ACCOUNT, SENDER, TOKEN
from tests.bot.channels.asgi_posts import Answered, post

PUBLIC = "https://yards.example/bot"
ADA = "+12025550123"
AT = datetime(2027, 5, 12, 10, 30, tzinfo=UTC)
SID = "SM" + "0123456789abcdef" * 2


def notice(**fields: str) -> dict[str, str]:
    """The fields of a message in, as "Twilio's request to your incoming message Webhook URL" lists
    them (www.twilio.com/docs/messaging/guides/webhook-request)."""
    return {
        "MessageSid": SID,
        "SmsSid": SID,
        "AccountSid": ACCOUNT,
        "From": ADA,
        "To": SENDER,
        "Body": "4a eggs, 5b no eggs",
        "NumMedia": "0",
        "NumSegments": "1",
        "ApiVersion": "2010-04-01",
        **fields,
    }


def signature(
    path: str, fields: Mapping[str, str], token: str = TOKEN, public: str = PUBLIC
) -> str:
    """Sign as "Secure webhooks" says (www.twilio.com/docs/usage/webhooks/webhooks-security)."""
    signed = public + path + "".join(name + fields[name] for name in sorted(fields))
    digest = hmac.new(token.encode(), signed.encode(), hashlib.sha1).digest()
    return base64.b64encode(digest).decode()


def headers(path: str, fields: Mapping[str, str], token: str = TOKEN) -> dict[str, str]:
    return {
        "Host": "127.0.0.1:8080",
        "Content-Type": "application/x-www-form-urlencoded",
        "X-Twilio-Signature": signature(path, fields, token),
    }


def status_path(at: datetime = AT, key: str = "17/0") -> str:
    return "/twilio/status?" + urlencode({"key": key, "at": str(int(at.timestamp()))})


@dataclass
class Receiver:
    """Takes in what the channel hands on, in memory; may be told to fail."""

    messages: list[IncomingMessage] = field(default_factory=list)
    reports: list[DeliveryReport] = field(default_factory=list)
    full: bool = False
    now: datetime = AT

    async def receive(self, message: IncomingMessage) -> None:
        if self.full:
            raise OSError("the disk is full")
        self.messages.append(message)

    async def report(self, report: DeliveryReport) -> None:
        if self.full:
            raise OSError("the disk is full")
        self.reports.append(report)

    @asynccontextmanager
    async def open(self, shared_key: str = "", heard: bool = True) -> AsyncIterator[Starlette]:
        """Run the channel's HTTP side; ``heard`` tells whether anybody listens."""
        account = TwilioAccount(ACCOUNT, TOKEN, SENDER, PUBLIC, shared_key)
        channel = TwilioChannel(account, self.report, clock=lambda: self.now)
        listening = asyncio.create_task(channel.listen(self.receive)) if heard else None
        await asyncio.sleep(0)
        try:
            yield Starlette(routes=channel.routes())
        finally:
            if listening is not None:
                listening.cancel()
                await asyncio.gather(listening, return_exceptions=True)
            await channel.close()


async def tell(app: Starlette, path: str, fields: Mapping[str, str]) -> Answered:
    """Post fields to a path, rightly signed."""
    return await post(app, path, urlencode(fields).encode(), headers(path, fields))
