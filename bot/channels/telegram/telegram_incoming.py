"""Updates of Telegram: fetched, one bad one at a time, and what each says as a message in."""

import json
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from telegram import Bot, CallbackQuery, Chat, ChatMemberUpdated, Message, Update, User
from telegram.constants import ChatMemberStatus, ChatType
from telegram.error import NetworkError, TelegramError

from bot.channels.channel import IncomingMessage
from bot.channels.telegram.retry import BotApiRequest
from bot.channels.traits import TELEGRAM
from bot.program_log import log_of

log = log_of(__name__)

WANTED = (
    *(Update.MESSAGE, Update.EDITED_MESSAGE, Update.CALLBACK_QUERY),
    Update.MY_CHAT_MEMBER,
)
"""The kinds of update that are asked for."""


@dataclass(frozen=True)
class Fetched:
    """An update by its number; ``update`` is None if the library could not read it."""

    number: int
    update: Update | None


async def fetch(
    bot: Bot, request: BotApiRequest, offset: int | None, wait: timedelta
) -> tuple[Fetched, ...]:
    """Ask for updates from ``offset`` on, waiting up to ``wait`` for the first.

    An update that the library cannot read is reported without its content: it would otherwise
    be sent again with every fetch, and hold up everybody's messages behind it.

    Raises:
        TelegramError: the Bot API did not answer, or refused.
    """
    try:
        updates = await bot.get_updates(offset, timeout=wait, allowed_updates=WANTED)
    except TelegramError:
        raise
    except Exception:  # noqa: BLE001 - the library lets through whatever its parsing raises
        return tuple(read_update(update, bot) for update in _raw_updates(request.last_answer))
    numbered = tuple(Fetched(u.update_id, u) for u in updates if isinstance(u.update_id, int))
    if updates and not numbered:
        raise NetworkError("the answer holds no updates")
    return numbered


def _raw_updates(answer: bytes) -> list[dict[str, Any]]:
    try:
        updates: list[dict[str, Any]] = json.loads(answer)["result"]
        return [update for update in updates if int(update["update_id"]) >= 0]
    except (ValueError, KeyError, TypeError, OverflowError, RecursionError):
        raise NetworkError("the answer holds no updates") from None


def read_update(raw: dict[str, Any], bot: Bot) -> Fetched:
    """Read an update; without its content if the library cannot.

    Raises:
        KeyError, TypeError, ValueError, OverflowError: it has no number.
    """
    number = int(raw["update_id"])
    try:
        return Fetched(number, Update.de_json(raw, bot))
    except Exception as error:  # noqa: BLE001 - as above
        _tell_left_out(number, error)
        return Fetched(number, None)


def message_or_none(update: Update, now: datetime) -> IncomingMessage | None:
    """Read the message in an update as ``message_from`` does; None also if it cannot be read."""
    try:
        return message_from(update, now)
    except Exception as error:  # noqa: BLE001 - whatever it was, it would come up for ever
        _tell_left_out(update.update_id, error)
        return None


def _tell_left_out(number: int, error: Exception) -> None:
    left_out = "left out an unreadable update"
    log.error(left_out, channel=TELEGRAM.name, number=number, error=type(error).__name__)


def message_from(update: Update, now: datetime) -> IncomingMessage | None:
    """Read the message in an update, or None if it holds none for us.

    Only private chats are read: a unit's story is its crew's business, and in a group nobody
    could tell who is asked; of a group only that the bot was added comes. What has no words (a
    sticker, a voice) comes with an empty text, to be answered; a notice that Telegram itself wrote
    (a pinned message) does not come at all.

    Args:
        update: the update.
        now: aware UTC instant, for a tapped button, which carries no time of its own.
    """
    if update.callback_query is not None:
        return _tapped(update.callback_query, now)
    if update.edited_message is not None and _private(update.edited_message.chat):
        return _edited(update.edited_message, update.update_id)
    if update.message is not None and _private(update.message.chat):
        return _written(update.message)
    return None if update.my_chat_member is None else _added(update.my_chat_member)


_OUT = (ChatMemberStatus.LEFT, ChatMemberStatus.BANNED)


def _added(change: ChatMemberUpdated) -> IncomingMessage | None:
    """Tell that the bot was added to a group; every other change of its standing is nothing."""
    was_out = change.old_chat_member.status in _OUT
    is_in = change.new_chat_member.status not in (*_OUT, ChatMemberStatus.RESTRICTED)
    if change.chat.type not in (ChatType.GROUP, ChatType.SUPERGROUP) or not (was_out and is_in):
        return None
    return IncomingMessage(
        channel=TELEGRAM.name,
        address=str(change.chat.id),
        id=f"added:{change.chat.id}:{int(change.date.timestamp())}",
        text="",
        sent_at=change.date,
        in_group=True,
    )


def message_key(chat_id: int, message_id: int) -> str:
    """Name a message among all of the bot's; Telegram counts anew in every private chat."""
    return f"{chat_id}:{message_id}"


def _private(chat: Chat) -> bool:
    return chat.type == ChatType.PRIVATE


def _written(message: Message) -> IncomingMessage | None:
    text = _words(message) or _typed_position(message)
    if text is None and message.effective_attachment is None:
        return None
    return IncomingMessage(
        channel=TELEGRAM.name,
        address=str(message.chat.id),
        id=message_key(message.chat.id, message.message_id),
        text=text or "",
        sent_at=message.date,
        sender=_name(message.from_user),
        replies_to=_replies_to(message),
        album=message.media_group_id,
    )


def _replies_to(message: Message) -> str | None:
    """Name the message of this chat that is quoted."""
    quoted = message.reply_to_message
    if quoted is None or quoted.chat.id != message.chat.id:
        return None
    return message_key(quoted.chat.id, quoted.message_id)


def _edited(message: Message, number: int) -> IncomingMessage | None:
    text = _words(message)
    # A shared live position is "edited" every few seconds; without words nothing was corrected.
    if text is None or message.edit_date is None:
        return None
    original = message_key(message.chat.id, message.message_id)
    return IncomingMessage(
        channel=TELEGRAM.name,
        address=str(message.chat.id),
        # The time alone is of whole seconds, and numbers of updates begin anew now and then.
        id=f"{original}:edit:{int(message.edit_date.timestamp())}:{number}",
        text=text,
        sent_at=message.edit_date,
        sender=_name(message.from_user),
        corrects=original,
    )


def _tapped(query: CallbackQuery, now: datetime) -> IncomingMessage | None:
    if query.message is None or query.data is None or not _private(query.message.chat):
        return None
    of = message_key(query.message.chat.id, query.message.message_id)
    return IncomingMessage(
        channel=TELEGRAM.name,
        address=str(query.message.chat.id),
        id=f"tap:{of}:{query.data}",
        text=query.data,
        sent_at=now,
        sender=_name(query.from_user),
        tap=query.id,
        replies_to=of,
    )


def _words(message: Message) -> str | None:
    """Take the text, or the line under a picture: "4b eggs" may stand under a photo of them."""
    return message.text if message.text is not None else message.caption


def _typed_position(message: Message) -> str | None:
    """Say a shared position as it would be typed: it is how a phone tells where a yard is."""
    if message.location is None:
        return None
    return f"location {message.location.latitude:.5f}, {message.location.longitude:.5f}"


def _name(user: User | None) -> str:
    return "" if user is None else user.full_name
