"""The Telegram channel."""

import asyncio
import contextlib
import logging
from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import partial

from telegram import (
    Bot,
    BotCommandScopeAllPrivateChats,
    InlineKeyboardMarkup,
    LinkPreviewOptions,
    Message,
    Update,
)
from telegram.error import BadRequest, TelegramError
from telegram.helpers import create_deep_linked_url

from bot.channels.channel import (
    ChannelBroken,
    IncomingMessage,
    OutgoingMessage,
    Receive,
    SendOutcome,
    SendResult,
)
from bot.channels.send_error import SendError
from bot.channels.telegram.message_edits import edit_message
from bot.channels.telegram.message_limits import checked_code, command_menu, keyboard, split_text
from bot.channels.telegram.retry import BotApiRequest, Retry, forget_answer, is_ok, plain
from bot.channels.telegram.telegram_incoming import fetch, message_key, message_or_none
from bot.channels.telegram.telegram_outcome import outcome_of
from bot.channels.traits import TELEGRAM
from bot.monitoring import Counted, beat, count, poll_name
from bot.program_log import log_of
from scheduling.records.engine import fault_of_database

log = log_of(__name__)

BOT_API = "https://api.telegram.org"
"""Telegram's own server of the Bot API."""

ANSWERS_FIRST_SECONDS = 0.003
"""How long the next fetch waits after messages came in: to make it takes a millisecond of the one
processor for which their answers are waiting, too."""


_NO_PREVIEW = LinkPreviewOptions(is_disabled=True)


class TelegramChannel:
    """A Telegram bot, fetched from by long polling.

    Args:
        token: the bot's token. It never appears in a log or an error.
        base_url: a Bot API server of one's own, without "/bot" at its end; None for Telegram's.
        commands: the menu: names without slash, and what each does.
        poll_for: how long the server may hold a fetch open when there is nothing.
        answer_within: how long the server may take to answer anything else. A letter that is not
            answered in time is ``unknown``.
        retry: the waits between tries.

    Raises:
        ChannelBroken: the token is empty.
        ValueError: Telegram would refuse a command of the menu.
    """

    traits = TELEGRAM

    def __init__(
        self,
        token: str,
        base_url: str | None = None,
        *,
        commands: Mapping[str, str] | None = None,
        poll_for: timedelta = timedelta(seconds=30),
        answer_within: timedelta = timedelta(seconds=7),
        retry: Retry | None = None,
    ) -> None:
        if not token.strip():
            raise ChannelBroken("Telegram needs the bot's token; it is empty")
        _hush_libraries()
        seconds = answer_within.total_seconds()
        self._fetching = BotApiRequest(seconds)
        self._bot = Bot(
            token.strip(),
            base_url=f"{(base_url or BOT_API).rstrip('/')}/bot",
            request=BotApiRequest(seconds),
            get_updates_request=self._fetching,
        )
        self._menu = command_menu(commands or {})
        self._poll_for = poll_for
        self._retry = retry or Retry()
        self._offering: asyncio.Task[None] | None = None

    async def connect(self) -> None:
        """Make the bot known to us and open its way in; tries until the server answers.

        The menu is decoration: it is offered beside, and no message waits for it.

        Raises:
            ChannelBroken: the token is refused.
        """
        await self._retry.until_answered("reaching the server", self._bot.initialize)
        await self._open()
        self._stop_offering()
        self._offering = asyncio.create_task(self._until_offered())

    async def listen(self, receive: Receive) -> None:
        """Hand every message in to ``receive`` until cancelled.

        An update is confirmed to Telegram, by the next fetch, only after ``receive`` returned; if
        it raises, the same message is handed in again after a pause, and the ones behind it wait.

        Raises:
            ChannelBroken: the token is refused.
        """
        await self.connect()
        offset: int | None = None
        while True:
            fetched = await self._retry.until_answered(
                "fetching",
                partial(fetch, self._bot, self._fetching, offset, self._poll_for),
            )
            beat(poll_name(TELEGRAM.name), datetime.now(UTC))
            count(Counted.POLLS, channel=TELEGRAM.name)
            for one in fetched:
                if one.update is not None:
                    await self._take(one.update, receive)
            # With nothing waiting there is nothing to confirm. A number kept longer could pass
            # over messages: after a quiet week Telegram starts counting at a random number.
            offset = max(one.number for one in fetched) + 1 if fetched else None
            if fetched:
                await asyncio.sleep(ANSWERS_FIRST_SECONDS)

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Send one message; of one too long for a message, the next part. Buttons under the last.

        One that takes the place of an earlier message changes that.

        Telegram takes no idempotency key, so ``outgoing.once`` is of no use here.
        """
        parts = split_text(outgoing.text)
        if outgoing.edits is not None:
            return await edit_message(self._bot, outgoing, parts)
        if outgoing.part >= len(parts):
            said = "nothing to send: the text is blank"
            return SendOutcome(SendResult.REFUSED, said=said, error=SendError.BLANK)
        left = len(parts) - outgoing.part - 1
        outcome = await self._send(
            outgoing.address, parts[outgoing.part], None if left else outgoing
        )
        return replace(outcome, parts_left=left)

    async def close(self) -> None:
        """Let go of connections."""
        self._stop_offering()
        await self._bot.shutdown()
        await asyncio.gather(self._fetching.shutdown(), self._bot.request.shutdown())

    def invite_link(self, code: str) -> str:
        """Give the link that opens a chat with the bot and, at "start", sends ``/start CODE``.

        Raises:
            ValueError: a link cannot carry this code.
            RuntimeError: the channel was not connected yet, so the bot's name is not known.
        """
        sound = checked_code(code)
        return create_deep_linked_url(self._bot.username, sound)

    async def _open(self) -> None:
        await self._retry.until_answered("leaving the webhook", self._leave_webhook)

    async def _leave_webhook(self) -> None:
        await self._bot.delete_webhook(drop_pending_updates=False)

    async def _until_offered(self) -> None:
        # A token that is refused is told of by whoever fetches.
        with contextlib.suppress(ChannelBroken):
            await self._retry.until_answered("offering the menu", self._offer_menu)

    def _stop_offering(self) -> None:
        if self._offering is not None:
            self._offering.cancel()

    async def _offer_menu(self) -> None:
        if not self._menu:
            return
        try:
            # Groups are not read; an earlier version offered it there too.
            await self._bot.set_my_commands(self._menu, scope=BotCommandScopeAllPrivateChats())
            await self._bot.delete_my_commands()
        except BadRequest as error:
            log.warning("going on without the menu", channel=TELEGRAM.name, said=str(error))

    async def _take(self, update: Update, receive: Receive) -> None:
        await self._stop_waiting_sign(update)
        message = message_or_none(update, datetime.now(UTC))
        if message is not None:
            await self._until_received(message, receive)

    async def _until_received(self, message: IncomingMessage, receive: Receive) -> None:
        await self._retry.until_done(
            "storing a message", partial(receive, message), _not_stored, fault_of_database
        )

    async def _stop_waiting_sign(self, update: Update) -> None:
        """Answer a tap, or the button spins; if that fails, the tap counts all the same."""
        if update.callback_query is None:
            return
        try:
            await update.callback_query.answer()
        except Exception as error:  # noqa: BLE001 - also an answer that the library cannot read
            log.info("a tap could not be answered", channel=TELEGRAM.name, said=plain(error))

    async def _send(self, address: str, text: str, ends: OutgoingMessage | None) -> SendOutcome:
        try:
            chat = int(address)
        except ValueError:
            said = f"{address!r} is not a chat's number"
            return SendOutcome(SendResult.REFUSED, said=said, error=SendError.NO_ADDRESS)
        forget_answer()
        try:
            sent = await self._post(chat, text, ends)
        except TelegramError as error:
            return outcome_of(error)
        except Exception as error:  # noqa: BLE001 - an answer the library cannot read, for one
            # Taken for unknown, each message would come twice.
            return SendOutcome(SendResult.SENT) if is_ok() else outcome_of(error)
        return SendOutcome(SendResult.SENT, message_key(sent.chat.id, sent.message_id))

    async def _post(self, chat: int, text: str, ends: OutgoingMessage | None) -> Message:
        """Post a part of a message; the last one with its buttons, and with its file if any."""
        markup: InlineKeyboardMarkup | None = keyboard(ends.buttons) if ends else None
        if ends is not None and ends.document is not None:
            octets, name = ends.document.text.encode(), ends.document.name
            return await self._bot.send_document(
                chat, octets, caption=text, filename=name, reply_markup=markup
            )
        return await self._bot.send_message(
            chat, text, reply_markup=markup, link_preview_options=_NO_PREVIEW
        )


def _not_stored(error: BaseException) -> bool:
    """Take every error as one that may pass: whatever went wrong, the message is not stored."""
    return isinstance(error, Exception)


def _hush_libraries() -> None:
    """Keep tokens and people's words out of the log; every error reaches us as an exception."""
    logging.getLogger("httpx").setLevel(logging.WARNING)
    logging.getLogger("telegram").setLevel(logging.CRITICAL + 1)
