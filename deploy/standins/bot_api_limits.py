"""What the Bot API refuses, written down apart from the program under test.

The numbers are those of python-telegram-bot 22.8's own table (telegram.constants), which gives
them from the Bot API's documentation, core.telegram.org/bots/api; the two on buttons are in that
table as undocumented. The words of the refusals are from memory.
"""

import json
import re
from collections.abc import Mapping
from typing import Any

MOST_TEXT_UNITS = 4096
MOST_CALLBACK_BYTES = 64
MOST_BUTTONS_IN_A_ROW = 8
MOST_BUTTONS = 100
MOST_DESCRIPTION_CHARACTERS = 256

_COMMAND = re.compile(r"[a-z0-9_]{1,32}")

Form = Mapping[str, str]
Buttons = tuple[tuple[tuple[str, str], ...], ...]
"""Rows of (label, callback data)."""


class Refused(Exception):  # noqa: N818 - named for what the server says
    """The call breaks a rule; answered as a 400 with these words."""


def checked_chat(form: Form) -> int:
    """The chat that the call names."""
    try:
        return int(form["chat_id"])
    except (KeyError, ValueError):
        raise Refused("Bad Request: chat_id is empty") from None


def checked_text(form: Form) -> str:
    """The text, if it is neither empty nor too long (in UTF-16 code units)."""
    text = form.get("text", "")
    if not text.strip():
        raise Refused("Bad Request: message text is empty")
    if len(text.encode("utf-16-le")) // 2 > MOST_TEXT_UNITS:
        raise Refused("Bad Request: message is too long")
    return text


def checked_buttons(form: Form) -> Buttons:
    """The rows of buttons, if there are not too many and each is short enough."""
    markup: dict[str, Any] = json.loads(form.get("reply_markup", "{}"))
    rows: Buttons = tuple(
        tuple((button["text"], button["callback_data"]) for button in row)
        for row in markup.get("inline_keyboard", [])
    )
    if any(len(row) > MOST_BUTTONS_IN_A_ROW for row in rows):
        raise Refused("Bad Request: too many buttons in a row")
    if sum(map(len, rows)) > MOST_BUTTONS:
        raise Refused("Bad Request: reply markup is too long")
    for label, data in (button for row in rows for button in row):
        if not label or not 1 <= len(data.encode()) <= MOST_CALLBACK_BYTES:
            raise Refused("Bad Request: BUTTON_DATA_INVALID")
    return rows


def checked_commands(form: Form) -> dict[str, str]:
    """The menu, if every command and description is well formed."""
    menu = {one["command"]: one["description"] for one in json.loads(form["commands"])}
    for command, description in menu.items():
        if not _COMMAND.fullmatch(command):
            raise Refused("Bad Request: BOT_COMMAND_INVALID")
        if not 1 <= len(description) <= MOST_DESCRIPTION_CHARACTERS:
            raise Refused("Bad Request: BOT_COMMAND_DESCRIPTION_INVALID")
    return menu


def checked_scope(form: Form) -> str:
    """Where a menu is offered."""
    scope = json.loads(form.get("scope", '{"type": "default"}'))["type"]
    if scope not in ("default", "all_private_chats", "all_group_chats"):
        raise Refused("Bad Request: invalid scope")
    return str(scope)
