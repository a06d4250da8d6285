"""The memory of the Bot API stand-in, and what a test may look at and set."""

import asyncio
import threading
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from enum import Enum
from typing import Any

from deploy.standins.bot_api_faults import Fault
from deploy.standins.bot_api_limits import (
    Form,
    Refused,
    checked_buttons,
    checked_chat,
    checked_commands,
    checked_scope,
    checked_text,
)
from deploy.standins.bot_api_messages import BOT, Sent, checked_edit, message_json
from deploy.standins.bot_api_queue import Json, Pushed, UpdateQueue
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS

TOKEN = "123456:INVENTED-TOKEN-OF-NO-BOT"  # noqa: S105 - invented, opens nothing
STEP = 0.01
"""Seconds between two looks for something new."""


class Moment(Enum):
    """Where in a call the stand-in is."""

    ARRIVED = "arrived"
    """The call came in and has had no effect."""
    TAKEN = "taken"
    """The call had its effect and is not answered."""


@dataclass(frozen=True)
class Call:
    """One call: the method, what came with it, which caller made it, and what befalls it."""

    method: str
    form: Form
    caller: str
    fault: Fault


def _look_away(_call: Call, _moment: Moment) -> None:
    """See nothing."""


@dataclass
class BotApiStandin:
    """The server's memory; every method may be called from any thread.

    Attributes:
        port: where it listens on 127.0.0.1.
        sent: every message taken, in order.
        edited: every edit taken, in order, as the message stands after it.
        calls: every method called, in order, refused ones too.
        offsets: the update number that each fetch began at, None without one.
        answered_taps: the ids of the taps that the bot answered.
        menus: the command menu of each scope: "default" is everywhere.
        webhook: what the bot asked to be posted to; None while it fetches.
        webhook_left: whether the bot gave up its webhook, keeping what was waiting.
        watch: is shown every call, from the server's thread; what it does takes effect before
            the call goes on.
    """

    token: str = TOKEN
    port: int = 0
    sent: list[Sent] = field(default_factory=list)
    edited: list[Sent] = field(default_factory=list)
    calls: list[str] = field(default_factory=list)
    offsets: list[int | None] = field(default_factory=list)
    answered_taps: list[str] = field(default_factory=list)
    menus: dict[str, dict[str, str]] = field(default_factory=dict)
    webhook: Form | None = None
    webhook_left: bool = False
    closing: bool = False
    watch: Callable[[Call, Moment], None] = _look_away
    _queue: UpdateQueue = field(default_factory=UpdateQueue)
    _faults: dict[str, list[Fault]] = field(default_factory=dict)
    _news: threading.Condition = field(default_factory=threading.Condition)
    _taps: int = 0
    _fetches: int = 0

    @property
    def url(self) -> str:
        """The address to give to the bot, without "/bot"."""
        return f"http://127.0.0.1:{self.port}"

    def push_text(self, chat: int, text: str, sender: str = "Ada") -> Pushed:
        """A person writes in their private chat with the bot."""
        return self.push_content(chat, {"text": text}, sender)

    def push_content(
        self, chat: int, content: Json, sender: str = "Ada", kind: str = "private"
    ) -> Pushed:
        """A person sends anything: ``{"sticker": ...}``, ``{"caption": ...}``, also in a group."""
        with self._news:
            return self._queue.message(chat, sender, content, kind)

    def push_edit(self, of: Pushed, text: str) -> Pushed:
        """The person edits an earlier text."""
        return self.push_edit_content(of, {"text": text})

    def push_edit_content(self, of: Pushed, content: Json) -> Pushed:
        """The person edits an earlier message of any content."""
        with self._news:
            return self._queue.edit(of.chat, of.message_id, content)

    def push_tap(self, chat: int, message_id: int, data: str, sender: str = "Ada") -> Pushed:
        """A person taps a button under the bot's message."""
        with self._news:
            self._taps += 1
            return self._queue.tap(f"tap-{self._taps}", chat, message_id, data, sender)

    def push_raw(self, content: Json) -> int:
        """An update of any shape; returns its number."""
        with self._news:
            return self._queue.raw(content)

    def push_again(self, update_id: int) -> None:
        """The server gives an update out once more, whatever was confirmed."""
        with self._news:
            self._queue.again(update_id)

    def next_send(self, *faults: Fault) -> None:
        """What happens to the next messages the bot sends, one fault each."""
        self.next_call("sendMessage", *faults)

    def next_call(self, method: str, *faults: Fault) -> None:
        """What happens to the next calls of a method ("getUpdates"), one fault each."""
        with self._news:
            self._faults.setdefault(method, []).extend(faults)

    @property
    def menu(self) -> dict[str, str]:
        """The command menu as a private chat shows it."""
        return self.menus.get("all_private_chats") or self.menus.get("default") or {}

    def showing(self, chat: int) -> dict[int, Sent]:
        """The bot's messages as a phone shows them now, edits made, by their numbers."""
        return {each.message_id: each for each in (*self.sent, *self.edited) if each.chat == chat}

    def close(self) -> None:
        """Let every fetch go that waits, and none wait any more."""
        self.closing = True

    @property
    def unconfirmed(self) -> tuple[int, ...]:
        """The numbers of the updates that the bot has not confirmed."""
        with self._news:
            return self._queue.unconfirmed

    def posted(self) -> Json | None:
        """The update that is to be posted next."""
        with self._news:
            return next(iter(self._queue.due(1)), None)

    def confirm(self, update: Json) -> None:
        """An update that was posted was taken."""
        with self._news:
            self._queue.due(1)
            self._queue.confirm_below(update["update_id"] + 1)
            self._news.notify_all()

    def wait_for_sent(self, count: int, timeout: float = WAIT_AT_MOST_SECONDS) -> list[Sent]:
        """Wait until ``count`` messages were taken; returns all taken so far.

        Raises:
            TimeoutError: they did not come within ``timeout`` seconds.
        """
        self.wait_until(lambda: len(self.sent) >= count, f"{count} messages", timeout)
        return list(self.sent)

    def wait_until(
        self, true: Callable[[], bool], what: str, timeout: float = WAIT_AT_MOST_SECONDS
    ) -> None:
        """Wait until something holds; it is asked under the lock, after every call.

        Raises:
            TimeoutError: it did not hold within ``timeout`` seconds.
        """
        with self._news:
            # Counted, not timed, so that a test's frozen clock does not stop it.
            for _ in range(max(1, round(timeout / STEP))):
                if true():
                    return
                self._news.wait(STEP)
        raise TimeoutError(f"waited {timeout:g} s for {what}; sent so far: {self.sent}")

    def next_fault(self, method: str) -> Fault:
        """Take the fault that waits for a method, or none."""
        with self._news:
            waiting = self._faults.get(method)
            return waiting.pop(0) if waiting else Fault()

    def note_call(self, method: str) -> None:
        """Write down that a method was called."""
        with self._news:
            self.calls.append(method)
            self._news.notify_all()

    def perform(self, method: str, form: Form) -> Any:
        """Carry a call out and return its result.

        Raises:
            Refused: the call breaks a rule.
            KeyError: there is no such method.
        """
        with self._news:
            result = _METHODS[method](self, form)
            self._news.notify_all()
            return result

    async def fetch(self, form: Form) -> list[Json]:
        """Give out what waits, or wait for something.

        Raises:
            Refused: a newer fetch began.
        """
        with self._news:
            self._fetches += 1
            mine = self._fetches
            self.offsets.append(int(form["offset"]) if "offset" in form else None)
            self._queue.confirm_below(self.offsets[-1] or 0)
        for _ in range(max(1, round(float(form.get("timeout", "0")) / STEP))):
            with self._news:
                if mine != self._fetches:
                    raise Refused("Conflict: terminated by other getUpdates request")
                if (due := self._queue.due(int(form.get("limit", "100")))) or self.closing:
                    return due
            await asyncio.sleep(STEP)
        return []

    def _send_message(self, form: Form) -> Json:
        chat, text, buttons = checked_chat(form), checked_text(form), checked_buttons(form)
        sent = Sent(chat, text, self._queue.next_message_id(chat), buttons)
        self.sent.append(sent)
        return message_json(sent)

    def _edit_text(self, form: Form) -> Json:
        return self._edited(form, checked_text(form))

    def _edit_buttons(self, form: Form) -> Json:
        return self._edited(form, None)

    def _edited(self, form: Form, text: str | None) -> Json:
        self.edited.append(checked_edit(self.showing(checked_chat(form)), form, text))
        return message_json(self.edited[-1])

    def _send_document(self, form: Form) -> Json:
        self._send_message({**form, "text": form["caption"]})
        name, _, text = form["document"].partition("\n")
        self.sent[-1] = replace(self.sent[-1], document=(name, text))
        return message_json(self.sent[-1])

    def _answer_tap(self, form: Form) -> bool:
        self.answered_taps.append(form["callback_query_id"])
        return True

    def _set_menu(self, form: Form) -> bool:
        self.menus[checked_scope(form)] = checked_commands(form)
        return True

    def _take_menu_away(self, form: Form) -> bool:
        self.menus.pop(checked_scope(form), None)
        return True

    def _leave_webhook(self, form: Form) -> bool:
        self.webhook = None
        self.webhook_left = form.get("drop_pending_updates", "false").lower() == "false"
        return True

    def _set_webhook(self, form: Form) -> bool:
        self.webhook = form
        return True


_METHODS: dict[str, Callable[[BotApiStandin, Form], Any]] = {
    "getMe": lambda _api, _form: BOT,
    "deleteWebhook": BotApiStandin._leave_webhook,
    "setWebhook": BotApiStandin._set_webhook,
    "setMyCommands": BotApiStandin._set_menu,
    "deleteMyCommands": BotApiStandin._take_menu_away,
    "sendMessage": BotApiStandin._send_message,
    "sendDocument": BotApiStandin._send_document,
    "editMessageText": BotApiStandin._edit_text,
    "editMessageReplyMarkup": BotApiStandin._edit_buttons,
    "answerCallbackQuery": BotApiStandin._answer_tap,
}
