"""What Telegram takes: lengths of texts, buttons, commands and invite codes.

The library sends anything, so the limits are kept here. They are the ones in its own table,
``telegram.constants`` of python-telegram-bot 22.8.
"""

import re
from collections.abc import Iterator, Mapping

from telegram import BotCommand, InlineKeyboardButton, InlineKeyboardMarkup
from telegram.constants import (
    BotCommandLimit,
    InlineKeyboardButtonLimit,
    InlineKeyboardMarkupLimit,
    MessageLimit,
)

from bot.channels.channel import Button
from bot.program_log import log_of

log = log_of(__name__)

_COMMAND = re.compile(r"[a-z0-9_]{1,32}")
_CODE = re.compile(r"[A-Za-z0-9_-]{1,64}")


def split_text(text: str, units: int = MessageLimit.MAX_TEXT_LENGTH) -> tuple[str, ...]:
    """Cut a text into parts of at most ``units`` UTF-16 code units (2 or more).

    Cuts at line ends where it can, else between words. Blank text gives no part.
    """
    parts = []
    rest = text.strip()
    while (fitting := _fitting(rest, units)) < len(rest):
        cut = _cut(rest, fitting)
        parts.append(rest[:cut].rstrip())
        rest = rest[cut:].lstrip()
    return (*parts, rest) if rest else tuple(parts)


def _fitting(text: str, units: int) -> int:
    """How many characters from the start fit into ``units`` UTF-16 code units."""
    used = 0
    for index, character in enumerate(text):
        used += 2 if ord(character) > 0xFFFF else 1
        if used > units:
            return index
    return len(text)


def _cut(text: str, fitting: int) -> int:
    head = text[: fitting + 1]
    line_end = head.rfind("\n")
    return line_end if line_end > 0 else max(head.rfind(" "), 0) or fitting


def keyboard(rows: tuple[tuple[Button, ...], ...]) -> InlineKeyboardMarkup | None:
    """Lay buttons out as Telegram takes them; None if there are none.

    Long rows are broken, and what Telegram would refuse is left out with a line in the log: the
    message matters more than a button, since every button can also be typed.
    """
    sound = (tuple(button for button in row if _taken(button)) for row in rows)
    short = [piece for row in sound for piece in _pieces(row)]
    kept = _first(short, InlineKeyboardMarkupLimit.TOTAL_BUTTON_NUMBER)
    if not kept:
        return None
    return InlineKeyboardMarkup(
        [[InlineKeyboardButton(b.label, callback_data=b.text) for b in row] for row in kept]
    )


def _taken(button: Button) -> bool:
    size = len(button.text.encode())
    if button.label.strip() and 1 <= size <= InlineKeyboardButtonLimit.MAX_CALLBACK_DATA:
        return True
    log.warning("left out a button", channel="telegram", bytes=size)
    return False


def _pieces(row: tuple[Button, ...]) -> Iterator[tuple[Button, ...]]:
    width = InlineKeyboardMarkupLimit.BUTTONS_PER_ROW
    return (row[start : start + width] for start in range(0, len(row), width))


def _first(rows: list[tuple[Button, ...]], most: int) -> list[tuple[Button, ...]]:
    kept = []
    room = most
    for row in rows:
        kept.append(row[:room])
        room -= len(kept[-1])
    if sum(map(len, rows)) > most:
        log.warning("left out the buttons that were too many", channel="telegram", most=most)
    return [row for row in kept if row]


def command_menu(commands: Mapping[str, str]) -> tuple[BotCommand, ...]:
    """Make the menu of commands from their names (no slash) and descriptions.

    Raises:
        ValueError: Telegram would refuse one; the message names it.
    """
    for name, description in commands.items():
        if not _COMMAND.fullmatch(name):
            raise ValueError(f"{name!r} is no command; use 1 to 32 of a-z, 0-9 and _")
        if not 1 <= len(description) <= BotCommandLimit.MAX_DESCRIPTION:
            raise ValueError(f"the command {name} needs a description of 1 to 256 characters")
    if len(commands) > BotCommandLimit.MAX_COMMAND_NUMBER:
        raise ValueError("a menu holds at most 100 commands")
    return tuple(BotCommand(name, description) for name, description in commands.items())


def checked_code(code: str) -> str:
    """Give back the invite code, if a link can carry it.

    Raises:
        ValueError: it is not 1 to 64 letters, digits, ``_`` or ``-``.
    """
    if not _CODE.fullmatch(code):
        raise ValueError(f"{code!r} does not fit into a link; use 1 to 64 letters, digits, _ and -")
    return code
