"""The channel of texts through a keeper's own phone."""

import asyncio
import hashlib
from dataclasses import replace
from datetime import timedelta

import httpx
from android_sms_gateway.ahttp import HttpxAsyncHttpClient
from android_sms_gateway.client import AsyncAPIClient
from android_sms_gateway.domain import Message, TextMessage, Webhook
from android_sms_gateway.errors import APIError
from starlette.routing import Route

from bot.channels.channel import (
    ChannelBroken,
    Clock,
    OutgoingMessage,
    Receive,
    SendOutcome,
    SendResult,
    present,
)
from bot.channels.outcome import error_of_transport, failed
from bot.channels.phone.device import ANDROID, Allowance, Limit, PhoneDevice
from bot.channels.phone.phone_notices import EVENT_PATH, EVENTS, PhoneNotices
from bot.channels.reports import Report, unheard
from bot.channels.send_error import SendError
from bot.channels.sms.phone_number import is_number
from bot.channels.sms.segments import segments
from bot.channels.traits import SMS
from bot.program_log import log_of

log = log_of(__name__)

USEFUL_FOR = timedelta(hours=12)
"""After so long the phone gives a text up: yesterday's morning is of no use."""

RENEW = timedelta(minutes=15)
"""How often the phone is told where its notices go: a reset app has forgotten it."""

LOOK_AGAIN = timedelta(seconds=30)
"""How soon a phone that was not reached is tried again."""


class PhoneChannel:
    """Texts through the phone's app; messages in and reports come over HTTP to ``routes``.

    Every try of one message bears the same id, so that the phone sends it once.

    Args:
        answer_within: how long the phone may take.
        limit: how many texts the phone lets a program send.

    Raises:
        ChannelBroken: the settings cannot be right.
    """

    traits = replace(SMS, carrier="phone")

    def __init__(
        self,
        device: PhoneDevice,
        report: Report = unheard,
        clock: Clock = present,
        answer_within: timedelta = timedelta(seconds=10),
        limit: Limit = ANDROID,
    ) -> None:
        if not (device.login.strip() and device.password.strip() and device.signing_key.strip()):
            raise ChannelBroken("the phone needs its login, password and signing key")
        self._device = device
        self._clock = clock
        self._notices = PhoneNotices(device, report, clock)
        self._allowance = Allowance(limit)
        self._told_full = False
        self._http = httpx.AsyncClient(timeout=answer_within.total_seconds())
        self._client = AsyncAPIClient(
            device.login,
            device.password,
            base_url=device.url,
            http_client=HttpxAsyncHttpClient(self._http),
        )

    def routes(self) -> list[Route]:
        """Give the address that the phone's notices come to."""
        return self._notices.routes()

    async def listen(self, receive: Receive) -> None:
        """Hand every message in to ``receive`` until cancelled.

        The phone is answered well only after ``receive`` returned, and tries for two days.

        Raises:
            ChannelBroken: the phone refuses our login or password.
        """
        self._notices.receive = receive
        try:
            while True:
                asked = await self._ask_for_notices()
                await asyncio.sleep((RENEW if asked else LOOK_AGAIN).total_seconds())
        finally:
            self._notices.receive = None

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Send one message, if the phone's allowance lets it; else say when."""
        count, now = segments(outgoing.text), self._clock()
        if not outgoing.text.strip():
            return failed(SendError.BLANK)
        if not is_number(outgoing.address):
            return failed(SendError.NO_ADDRESS, f"{outgoing.address!r} is not a phone number")
        if count > self._allowance.limit.segments:
            return failed(
                SendError.REFUSED, f"{count} segments are more than a phone sends at once"
            )
        free = self._allowance.free_at(count, now)
        if free > now:
            return self._full(free - now)
        self._told_full = False
        outcome = await self._post(outgoing)
        if outcome.result in (SendResult.SENT, SendResult.UNKNOWN):
            self._allowance.spend(count, now)
        return outcome

    async def close(self) -> None:
        """Let go of connections."""
        await self._http.aclose()

    def _full(self, wait: timedelta) -> SendOutcome:
        limit = self._allowance.limit
        minutes = round(limit.within.total_seconds() / 60)
        said = f"the phone sends {limit.segments} segments in {minutes} minutes, and they are spent"
        if not self._told_full:
            log.warning("what does not fit waits", channel=SMS.name, said=said)
        self._told_full = True
        return failed(SendError.FLOOD, said, wait)

    async def _post(self, outgoing: OutgoingMessage) -> SendOutcome:
        own = phone_message_id(outgoing)
        message = Message(
            id=own,
            phone_numbers=[outgoing.address],
            text_message=TextMessage(outgoing.text),
            with_delivery_report=True,
            ttl=round(USEFUL_FOR.total_seconds()),
        )
        try:
            await self._client.send(message)
        except APIError as error:
            return await self._unless_known(own, error)
        except httpx.HTTPError as error:
            return failed(error_of_transport(error), type(error).__name__)
        except RuntimeError:
            return failed(SendError.NO_CONNECTION, "the channel is closed")
        except Exception as error:  # noqa: BLE001 - an answer the client cannot read
            return failed(SendError.ODD_ANSWER, type(error).__name__)
        return SendOutcome(SendResult.SENT, carrier_id=own)

    async def _unless_known(self, own: str, error: APIError) -> SendOutcome:
        """A message that the phone refuses because it has it was sent by an earlier try."""
        if error.status_code in (400, 409) and await self._knows(own):
            return SendOutcome(SendResult.SENT, carrier_id=own)
        return failed(_send_error(error.status_code), f"HTTP {error.status_code}")

    async def _knows(self, own: str) -> bool:
        try:
            return bool((await self._client.get_state(own)).id == own)
        except Exception:  # noqa: BLE001 - whatever it answers, it does not say that it knows
            return False

    async def _ask_for_notices(self) -> bool:
        """Tell the phone where its notices go; a registration of the same id is only renewed."""
        url = f"{self._device.public_url.rstrip('/')}{EVENT_PATH}"
        try:
            for event in EVENTS:
                own = f"yardbell-{event.name.lower().replace('_', '-')}"
                await self._client.create_webhook(Webhook(id=own, url=url, event=event))
        except APIError as error:
            if error.status_code in (401, 403):
                raise ChannelBroken("the phone does not know this login and password") from None
            log.warning("the phone refused to send notices", status=error.status_code)
        except Exception as error:  # noqa: BLE001 - the phone is out of reach; it is asked again
            log.warning("the phone was not reached, trying again", error=type(error).__name__)
        else:
            return True
        return False


def phone_message_id(outgoing: OutgoingMessage) -> str:
    """Name a message to the phone: alike for every try of it, and for no other, whosever it is."""
    what = "\0".join([outgoing.once, outgoing.address, outgoing.text])
    return hashlib.sha256(what.encode()).hexdigest()[:32]


def _send_error(status: int | None) -> SendError:
    if status in (401, 403):
        return SendError.TOKEN_REFUSED
    if status is not None and 400 <= status < 500 and status != 429:
        return SendError.REFUSED
    return SendError.FLOOD if status == 429 else SendError.CARRIER_FAILED
