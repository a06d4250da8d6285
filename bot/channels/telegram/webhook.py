"""Telegram by webhook: a bot that is posted to, where a machine can be reached from outside."""

import asyncio
import hashlib
import hmac
import json
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route
from telegram import Update

from bot.channels.channel import Receive
from bot.channels.telegram.channel import TelegramChannel
from bot.channels.telegram.retry import Retry
from bot.channels.telegram.telegram_incoming import WANTED, message_or_none, read_update
from bot.channels.traits import TELEGRAM
from bot.channels.webhook_limits import Bucket, NoBody, body_of
from bot.monitoring import beat, poll_name
from bot.program_log import log_of

log = log_of(__name__)

PATH = "/telegram/updates"

SECRET_HEADER = "X-Telegram-Bot-Api-Secret-Token"  # noqa: S105 - a name
"""Bot API, setWebhook, secret_token: core.telegram.org/bots/api#setwebhook (as python-telegram-bot
repeats it)."""

MOST_OCTETS = 131_072
"""A message of 4,096 characters, and the one it replies to, each written as six octets and more."""


class TelegramWebhookChannel(TelegramChannel):
    """A bot to which Telegram posts each update, one after the other.

    Telegram is told that an update arrived only after it was stored; until then it posts it again.
    A post without the secret changes nothing, and is answered without detail.

    Args:
        token: the bot's token; the secret of the posts is made from it, the same for every worker.
        public_url: the address under which our HTTP side is reached, before the path.
        base_url: as for ``TelegramChannel``.
        commands: likewise.
        answer_within: likewise.
        retry: likewise.
    """

    def __init__(
        self,
        token: str,
        public_url: str,
        base_url: str | None = None,
        *,
        commands: Mapping[str, str] | None = None,
        answer_within: timedelta = timedelta(seconds=7),
        retry: Retry | None = None,
    ) -> None:
        super().__init__(
            token, base_url, commands=commands, answer_within=answer_within, retry=retry
        )
        self._public_url = public_url.rstrip("/")
        self._secret = secret_of(token)
        self._receive: Receive | None = None
        self._strange = Bucket(a_second=5, at_once=50)

    def routes(self) -> list[Route]:
        """Give the address that Telegram posts to."""
        return [Route(PATH, self._take_post, methods=["POST"])]

    async def listen(self, receive: Receive) -> None:
        """Hand every message in to ``receive`` until cancelled.

        Raises:
            ChannelBroken: the token is refused.
        """
        await self.connect()
        self._receive = receive
        try:
            await asyncio.get_running_loop().create_future()
        finally:
            self._receive = None

    async def _open(self) -> None:
        await self._retry.until_answered("setting the webhook", self._set_webhook)

    async def _set_webhook(self) -> None:
        # One at a time: two updates under way at once might be stored in the wrong order.
        await self._bot.set_webhook(
            f"{self._public_url}{PATH}",
            secret_token=self._secret,
            max_connections=1,
            allowed_updates=WANTED,
            drop_pending_updates=False,
        )

    async def _take_post(self, request: Request) -> Response:
        said = request.headers.get(SECRET_HEADER, "")
        if not hmac.compare_digest(said.encode(), self._secret.encode()):
            return self._refused(403)
        try:
            body = await body_of(request, MOST_OCTETS)
        except NoBody as none:
            return self._refused(none.status)
        beat(poll_name(TELEGRAM.name), datetime.now(UTC))
        update = self._update_in(body)
        return Response(status_code=200) if update is None else await self._stored(update)

    def _update_in(self, body: bytes) -> Update | None:
        """Read an update; one that cannot be read is left out, or it would come for ever."""
        try:
            raw: dict[str, Any] = json.loads(body)
            return read_update(raw, self._bot).update
        except Exception as error:  # noqa: BLE001 - whatever it was, it would come up for ever
            left_out = "left out an unreadable update"
            log.error(left_out, channel=TELEGRAM.name, error=type(error).__name__)
            return None

    async def _stored(self, update: Update) -> Response:
        receive = self._receive
        if receive is None:
            return Response(status_code=503)
        await self._stop_waiting_sign(update)
        message = message_or_none(update, datetime.now(UTC))
        try:
            if message is not None:
                await receive(message)
        except Exception as error:  # noqa: BLE001 - whatever went wrong, it is not stored
            log.warning("a message was not stored", error=type(error).__name__)
            return Response(status_code=503)
        return Response(status_code=200)

    def _refused(self, status: int) -> Response:
        if not self._strange.take(datetime.now(UTC)):
            return Response(status_code=429)
        log.warning("a notice was refused", channel=TELEGRAM.name, status=status)
        return Response(status_code=status)


def secret_of(token: str) -> str:
    """Make the secret of the posts, which tells nothing of the token it is made from."""
    return hmac.new(token.strip().encode(), b"updates", hashlib.sha256).hexdigest()
