"""The channel of texts through Twilio."""

import asyncio
import math
from dataclasses import replace
from datetime import timedelta

import httpx
from starlette.routing import Route

from bot.channels.channel import (
    ChannelBroken,
    Clock,
    OutgoingMessage,
    Receive,
    SendOutcome,
    present,
)
from bot.channels.outcome import error_of_transport, failed
from bot.channels.reports import Report, unheard
from bot.channels.send_error import SendError
from bot.channels.sms.phone_number import is_number
from bot.channels.sms.segments import split
from bot.channels.traits import SMS
from bot.channels.twilio.refusals import outcome_of_refusal
from bot.channels.twilio.twilio_account import TwilioAccount
from bot.channels.twilio.twilio_notices import TwilioNotices

SEGMENTS_AT_ONCE = 10
"""Segments of one message to the carrier, which takes 1,600 letters (from memory)."""


class TwilioChannel:
    """Texts through the message API; messages in and reports come over HTTP to ``routes``.

    The API takes no idempotency key, so a send that was not answered stays unknown until a status
    notice names its key.

    Args:
        answer_within: how long the API may take.

    Raises:
        ChannelBroken: the account's settings cannot be right.
    """

    traits = replace(SMS, carrier="twilio")

    def __init__(
        self,
        account: TwilioAccount,
        report: Report = unheard,
        clock: Clock = present,
        answer_within: timedelta = timedelta(seconds=10),
    ) -> None:
        if not (account.token.strip() and account.sid.strip() and account.sender.strip()):
            raise ChannelBroken("Twilio needs the account's sid and token, and a sender")
        self._account = account
        self._notices = TwilioNotices(account, report, clock)
        self._http = httpx.AsyncClient(
            auth=(account.sid, account.token),
            timeout=answer_within.total_seconds(),
            follow_redirects=False,
        )

    def routes(self) -> list[Route]:
        """Give the addresses that the carrier's notices come to."""
        return self._notices.routes()

    async def listen(self, receive: Receive) -> None:
        """Hand every message in to ``receive`` until cancelled.

        The carrier is answered well only after ``receive`` returned.
        """
        self._notices.receive = receive
        try:
            await asyncio.get_running_loop().create_future()
        finally:
            self._notices.receive = None

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Send one message, or of one longer than the carrier takes the next part."""
        parts = pieces(outgoing.text)
        if outgoing.part >= len(parts) or not outgoing.text.strip():
            return failed(SendError.BLANK)
        if not is_number(outgoing.address):
            return failed(SendError.NO_ADDRESS, f"{outgoing.address!r} is not a phone number")
        outcome = await self._post(outgoing, parts[outgoing.part])
        return replace(outcome, parts_left=len(parts) - outgoing.part - 1)

    async def close(self) -> None:
        """Let go of connections."""
        await self._http.aclose()

    async def _post(self, outgoing: OutgoingMessage, text: str) -> SendOutcome:
        sender = self._account.sender
        form = {
            "To": outgoing.address,
            "MessagingServiceSid" if sender.startswith("MG") else "From": sender,
            "Body": text,
            "StatusCallback": self._notices.status_url(outgoing.once),
        }
        try:
            answer = await self._http.post(self._account.messages_url, data=form)
        except httpx.HTTPError as error:
            return failed(error_of_transport(error), type(error).__name__)
        except RuntimeError:
            return failed(SendError.NO_CONNECTION, "the channel is closed")
        return outcome_of_refusal(answer)


def pieces(text: str) -> tuple[str, ...]:
    """Cut a text into what the carrier takes at once; as a rule it is one piece."""
    parts = split(text)
    count = math.ceil(len(parts) / SEGMENTS_AT_ONCE)
    return tuple(
        "".join(parts[n * SEGMENTS_AT_ONCE : (n + 1) * SEGMENTS_AT_ONCE]) for n in range(count)
    )
