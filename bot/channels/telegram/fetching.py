"""Fetching updates, one bad one at a time."""

import json
from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from telegram import Bot, Update
from telegram.error import NetworkError, TelegramError

from bot.channels.telegram.retry import BotApiRequest
from bot.program_log import log_of

log = log_of(__name__)

WANTED = (Update.MESSAGE, Update.EDITED_MESSAGE, Update.CALLBACK_QUERY)
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
    return tuple(Fetched(update.update_id, update) for update in updates)


def _raw_updates(answer: bytes) -> list[dict[str, Any]]:
    try:
        updates: list[dict[str, Any]] = json.loads(answer)["result"]
        return [update for update in updates if int(update["update_id"]) >= 0]
    except (ValueError, KeyError, TypeError):
        raise NetworkError("the answer holds no updates") from None


def read_update(raw: dict[str, Any], bot: Bot) -> Fetched:
    """Read an update; without its content if the library cannot.

    Raises:
        KeyError, TypeError, ValueError: it has no number.
    """
    number = int(raw["update_id"])
    try:
        return Fetched(number, Update.de_json(raw, bot))
    except Exception as error:  # noqa: BLE001 - as above
        left_out = "left out an unreadable update"
        log.error(left_out, channel="telegram", number=number, error=type(error).__name__)
        return Fetched(number, None)
