"""The bot's messages as the Bot API stand-in keeps them, and the edits that it takes."""

import time
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from deploy.standins.bot_api_limits import Buttons, Form, Refused, checked_buttons

BOT = {"id": 123456, "is_bot": True, "first_name": "Yardbell", "username": "invented_yard_bot"}


@dataclass(frozen=True)
class Sent:
    """A message that the bot sent and the server took."""

    chat: int
    text: str
    message_id: int
    buttons: Buttons = ()
    document: tuple[str, str] | None = None
    """The name and text of the file that went with it."""


def checked_edit(shown: Mapping[int, Sent], form: Form, text: str | None) -> Sent:
    """The message as it stands after an edit; without a text only its buttons are others.

    Raises:
        Refused: there is no such message in the chat, or it stands so already.
    """
    before = shown.get(int(form["message_id"]))
    if before is None:
        raise Refused("Bad Request: message to edit not found")
    kept = before.text if text is None else text
    after = replace(before, text=kept, buttons=checked_buttons(form))
    if after == before:
        raise Refused("Bad Request: message is not modified")
    return after


def message_json(sent: Sent) -> dict[str, Any]:
    """A message of the bot as the API describes it."""
    said: dict[str, Any] = {"text": sent.text}
    if sent.document is not None:
        file = {"file_id": "f1", "file_unique_id": "u1", "file_name": sent.document[0]}
        said = {"document": file, "caption": sent.text}
    return {
        "message_id": sent.message_id,
        "date": int(time.time()),
        "chat": {"id": sent.chat, "type": "private"},
        "from": BOT,
        **said,
    }
