"""Quotes, albums, groups, the menu and edits, through the real library over HTTP."""

import asyncio
import time
from collections.abc import Iterator
from typing import Any

import pytest

from bot.channels.channel import Button, OutgoingMessage, SendOutcome, SendResult
from deploy.standins.bot_api_faults import bad_request
from deploy.standins.bot_api_standin import BOT, BotApiStandin, running_standin
from tests.bot.channels.telegram_listening import Desk, eventually, hear, quick_channel

ADA, CLUB = 5001, -500
ROWS = ((Button("4a eggs", "4a eggs"),), (Button("5 out", "5 out"),))


@pytest.fixture
def api() -> Iterator[BotApiStandin]:
    with running_standin() as standin:
        yield standin


def quoting(number: int, text: str, chat: int = ADA) -> dict[str, Any]:
    """A text that quotes the bot's message of a number."""
    quoted = {
        "message_id": number,
        "date": int(time.time()),
        "chat": {"id": chat, "type": "private"},
        "from": BOT,
        "text": "(the bot's message)",
    }
    return {"text": text, "reply_to_message": quoted}


def membership(old: str, new: str, kind: str = "group") -> dict[str, Any]:
    """The bot's standing in a chat changes."""
    person = {"id": ADA, "is_bot": False, "first_name": "Ada"}

    def member(status: str) -> dict[str, Any]:
        more = {"until_date": 0} if status == "kicked" else {}
        return {"status": status, "user": BOT, **more}

    change = {
        "chat": {"id": CLUB, "type": kind, "title": "Bee club"},
        "from": person,
        "date": int(time.time()),
        "old_chat_member": member(old),
        "new_chat_member": member(new),
    }
    return {"my_chat_member": change}


def send(url: str, *letters: OutgoingMessage) -> list[SendOutcome]:
    async def run() -> list[SendOutcome]:
        channel = quick_channel(url)
        try:
            return [await channel.send(outgoing) for outgoing in letters]
        finally:
            await channel.close()

    return asyncio.run(run())


def test_a_quote_names_the_message_it_quotes(api: BotApiStandin) -> None:
    api.push_content(ADA, quoting(7, "undo"))
    api.push_text(ADA, "due")

    quote, plain = hear(api.url, 2)

    assert (quote.text, quote.replies_to) == ("undo", "5001:7")
    assert plain.replies_to is None


def test_a_quote_of_another_chats_message_names_none(api: BotApiStandin) -> None:
    api.push_content(ADA, quoting(7, "undo", chat=5002))

    assert hear(api.url, 1)[0].replies_to is None


def test_a_tap_names_the_message_of_its_button(api: BotApiStandin) -> None:
    api.push_tap(ADA, 7, "undo")

    assert hear(api.url, 1)[0].replies_to == "5001:7"


def test_pictures_of_an_album_name_it(api: BotApiStandin) -> None:
    photo = [{"file_id": "f", "file_unique_id": "u", "width": 9, "height": 9}]
    for _ in range(2):
        api.push_content(ADA, {"photo": photo, "media_group_id": "991"})

    assert [message.album for message in hear(api.url, 2)] == ["991", "991"]


@pytest.mark.parametrize("kind", ["group", "supergroup"])
@pytest.mark.parametrize(("old", "new"), [("left", "member"), ("kicked", "member")])
def test_being_added_to_a_group_comes_in_as_nobodys_message(
    api: BotApiStandin, kind: str, old: str, new: str
) -> None:
    api.push_raw(membership(old, new, kind))

    (added,) = hear(api.url, 1)

    assert (added.address, added.text, added.in_group) == (str(CLUB), "", True)


@pytest.mark.parametrize(
    ("old", "new", "kind"),
    [("member", "left", "group"), ("member", "kicked", "group"), ("left", "member", "channel"),
     ("kicked", "member", "private")],
)  # fmt: skip
def test_other_changes_of_its_standing_come_not_in(
    api: BotApiStandin, old: str, new: str, kind: str
) -> None:
    api.push_raw(membership(old, new, kind))
    api.push_text(ADA, "due")

    assert [message.text for message in hear(api.url, 1)] == ["due"]


def test_the_menu_is_offered_in_private_chats_only(api: BotApiStandin) -> None:
    api.menus["default"] = {"due": "of an earlier version"}

    async def run() -> None:
        channel = quick_channel(api.url, due="what is due")
        task = asyncio.create_task(channel.listen(Desk().receive))
        try:
            await eventually(lambda: "deleteMyCommands" in api.calls)
            await eventually(lambda: "default" not in api.menus)
        finally:
            task.cancel()
            await asyncio.gather(task, return_exceptions=True)
            await channel.close()

    asyncio.run(run())
    assert api.menus == {"all_private_chats": {"due": "what is due"}}


def test_an_edit_takes_the_place_of_a_message(api: BotApiStandin) -> None:
    first = OutgoingMessage(str(ADA), "Open today.", ROWS)
    (sent,) = send(api.url, first)
    edit = OutgoingMessage(str(ADA), "Open today.\nNoted: 4a eggs.", ROWS[1:], edits="5001:1")

    (outcome,) = send(api.url, edit)

    assert sent.carrier_id == "5001:1"
    assert outcome == SendOutcome(SendResult.SENT)
    shown = api.showing(ADA)[1]
    assert shown.text == "Open today.\nNoted: 4a eggs."
    assert shown.buttons == ((("5 out", "5 out"),),)
    assert len(api.sent) == 1


def test_an_edit_made_before_is_done(api: BotApiStandin) -> None:
    send(api.url, OutgoingMessage(str(ADA), "Open today.", ROWS))
    edit = OutgoingMessage(str(ADA), "Done.", edits="5001:1")

    assert [outcome.result for outcome in send(api.url, edit, edit)] == [SendResult.SENT] * 2
    assert len(api.edited) == 1


def test_an_edit_of_a_message_that_is_gone_is_given_up(api: BotApiStandin) -> None:
    (outcome,) = send(api.url, OutgoingMessage(str(ADA), "Done.", edits="5001:99"))

    assert (outcome.result, outcome.error) == (SendResult.REFUSED, None)


def test_another_refusal_of_an_edit_is_told(api: BotApiStandin) -> None:
    api.next_call("editMessageText", bad_request("Bad Request: chat not found"))

    (outcome,) = send(api.url, OutgoingMessage(str(ADA), "Done.", edits="5001:1"))

    assert outcome.result is SendResult.UNREACHABLE


def test_of_a_text_of_several_parts_only_the_buttons_are_changed(api: BotApiStandin) -> None:
    send(api.url, OutgoingMessage(str(ADA), "The last part.", ROWS))
    long = "\n".join(["River: look for eggs"] * 400)

    (outcome,) = send(api.url, OutgoingMessage(str(ADA), long, ROWS[1:], edits="5001:1"))

    assert outcome.result is SendResult.SENT
    assert api.showing(ADA)[1].text == "The last part."
    assert api.showing(ADA)[1].buttons == ((("5 out", "5 out"),),)
