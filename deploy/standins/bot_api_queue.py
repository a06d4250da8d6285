"""What people do in Telegram, queued as updates until the bot confirms them."""

import time
from dataclasses import dataclass
from typing import Any

FIRST_UPDATE = 700_001
"""An invented number to count updates from; the real server starts at a random one."""

Json = dict[str, Any]


@dataclass(frozen=True)
class Pushed:
    """An update put into the queue, and the message it is about."""

    update_id: int
    chat: int
    message_id: int


class UpdateQueue:
    """Updates in order. Not safe between threads by itself: the stand-in holds a lock."""

    def __init__(self) -> None:
        self._waiting: list[Json] = []
        self._again: list[Json] = []
        self._given_again: list[Json] = []
        self._all: dict[int, Json] = {}
        self._next_update = FIRST_UPDATE
        self._next_message: dict[int, int] = {}
        self._messages: dict[tuple[int, int], Json] = {}

    def next_message_id(self, chat: int) -> int:
        """The next message number in a chat; each chat counts from 1."""
        self._next_message[chat] = self._next_message.get(chat, 0) + 1
        return self._next_message[chat]

    def message(self, chat: int, sender: str, content: Json, kind: str = "private") -> Pushed:
        """A message of any content, as from a person in a chat."""
        message = {
            "message_id": self.next_message_id(chat),
            "date": int(time.time()),
            "chat": {"id": chat, "type": kind},
            "from": person(chat, sender),
            **content,
        }
        self._messages[(chat, message["message_id"])] = message
        return self._push("message", message, message)

    def edit(self, chat: int, message_id: int, content: Json) -> Pushed:
        """The sender's edit of an earlier message."""
        message = {**self._messages[(chat, message_id)], **content, "edit_date": int(time.time())}
        return self._push("edited_message", message, message)

    def tap(self, query_id: str, chat: int, message_id: int, data: str, sender: str) -> Pushed:
        """A tap on a button under a message of the bot."""
        message: Json = {
            "message_id": message_id,
            "date": int(time.time()),
            "chat": {"id": chat, "type": "private"},
            "text": "(the bot's message)",
        }
        query = {
            "id": query_id,
            "from": person(chat, sender),
            "message": message,
            "chat_instance": "1",
            "data": data,
        }
        return self._push("callback_query", query, message)

    def raw(self, content: Json) -> int:
        """Any update at all, well formed or not; returns its number."""
        update = {"update_id": self._next_update, **content}
        self._next_update += 1
        self._all[update["update_id"]] = update
        self._waiting.append(update)
        return int(update["update_id"])

    def again(self, update_id: int) -> None:
        """Give one update out once more, confirmed or not."""
        self._again.append(self._all[update_id])

    def confirm_below(self, offset: int) -> None:
        """Forget what the bot has confirmed."""
        self._waiting = [update for update in self._waiting if update["update_id"] >= offset]
        done = [update for update in self._given_again if update["update_id"] < offset]
        self._again = [update for update in self._again if update not in done]
        self._given_again = []

    def due(self, limit: int) -> list[Json]:
        """What a fetch gets now: repetitions, then up to ``limit`` unconfirmed updates."""
        self._given_again = list(self._again)
        return [*self._again, *self._waiting[:limit]]

    @property
    def unconfirmed(self) -> tuple[int, ...]:
        """The numbers of the updates that the bot has not confirmed."""
        return tuple(update["update_id"] for update in self._waiting)

    def _push(self, kind: str, content: Json, message: Json) -> Pushed:
        update_id = self.raw({kind: content})
        return Pushed(update_id, message["chat"]["id"], message["message_id"])


def person(number: int, name: str) -> Json:
    """A person as Telegram describes one; invented."""
    return {"id": abs(number), "is_bot": False, "first_name": name}
