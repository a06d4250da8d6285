"""Messages that were sent are changed: a pressed button goes."""

from collections.abc import Sequence

from telegram import Bot, LinkPreviewOptions
from telegram.error import BadRequest

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult
from bot.channels.telegram.message_limits import keyboard
from bot.channels.telegram.telegram_outcome import outcome_of

_NO_PREVIEW = LinkPreviewOptions(is_disabled=True)

_AS_IT_WAS = "message is not modified"
"""How the Bot API refuses an edit that was made already; from memory."""
_NOT_THERE = ("message to edit not found", "message can't be edited")
"""How it refuses one of a message that its reader took away; from memory."""


async def edit_message(bot: Bot, outgoing: OutgoingMessage, parts: Sequence[str]) -> SendOutcome:
    """Put a text and its buttons in place of the message that ``outgoing.edits`` names.

    Of a text too long for one message only the buttons are changed. An edit that was made before,
    or whose message is gone, is done with.
    """
    try:
        await _edit(bot, outgoing, parts)
    except BadRequest as error:
        said = str(error).lower()
        if _AS_IT_WAS in said:
            return SendOutcome(SendResult.SENT)
        if any(words in said for words in _NOT_THERE):
            return SendOutcome(SendResult.REFUSED, said=str(error))
        return outcome_of(error)
    except Exception as error:  # noqa: BLE001 - an answer the library cannot read, for one
        return outcome_of(error)
    return SendOutcome(SendResult.SENT)


async def _edit(bot: Bot, outgoing: OutgoingMessage, parts: Sequence[str]) -> None:
    chat, _, number = (outgoing.edits or "").partition(":")
    markup = keyboard(outgoing.buttons)
    if len(parts) == 1:
        await bot.edit_message_text(
            parts[0],
            chat_id=int(chat),
            message_id=int(number),
            reply_markup=markup,
            link_preview_options=_NO_PREVIEW,
        )
    else:
        await bot.edit_message_reply_markup(int(chat), int(number), reply_markup=markup)
