"""What people write in Telegram reaches the conversation, through the real library over HTTP."""

import asyncio
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import pytest
from freezegun import freeze_time

from bot.channels.channel import IncomingMessage, OutgoingMessage
from bot.channels.telegram import channel as telegram_channel
from deploy.standins.bot_api_faults import bad_request
from deploy.standins.bot_api_standin import BotApiStandin, running_standin
from tests.bot.channels.telegram_listening import Desk, eventually, hear, quick_channel

ADA = 5001
BEN = 5002


@pytest.fixture
def api() -> Iterator[BotApiStandin]:
    with running_standin() as standin:
        yield standin


def test_a_reply_arrives_with_its_sender_and_instant(api: BotApiStandin) -> None:
    with freeze_time("2027-05-12 10:15:00", real_asyncio=True):
        api.push_text(ADA, "4b eggs", "Ada")
    assert hear(api.url, 1) == [
        IncomingMessage(
            channel="telegram",
            address="5001",
            id="5001:1",
            text="4b eggs",
            sent_at=datetime(2027, 5, 12, 10, 15, tzinfo=UTC),
            sender="Ada",
        )
    ]


def test_an_answer_leaves_before_the_next_fetch_is_made(
    api: BotApiStandin, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(telegram_channel, "ANSWERS_FIRST_SECONDS", 1.0)
    api.push_text(ADA, "4b eggs", "Ada")

    async def run() -> None:
        channel, answers = quick_channel(api.url), set[asyncio.Task[object]]()

        async def receive(message: IncomingMessage) -> None:
            outgoing = OutgoingMessage(message.address, "Noted.")
            answers.add(asyncio.create_task(channel.send(outgoing)))

        listening = asyncio.create_task(channel.listen(receive))
        await eventually(lambda: "sendMessage" in api.calls)
        listening.cancel()
        await asyncio.gather(*answers, listening, return_exceptions=True)
        await channel.close()

    asyncio.run(run())
    assert [call for call in api.calls if call in ("getUpdates", "sendMessage")] == [
        "getUpdates",
        "sendMessage",
    ]


def test_two_people_s_first_messages_are_told_apart(api: BotApiStandin) -> None:
    api.push_text(ADA, "due", "Ada")
    api.push_text(BEN, "due", "Ben")
    assert [message.id for message in hear(api.url, 2)] == ["5001:1", "5002:1"]


def test_the_same_update_twice_has_the_same_id(api: BotApiStandin) -> None:
    pushed = api.push_text(ADA, "4b eggs")
    api.push_again(pushed.update_id)
    first, second = hear(api.url, 2)
    assert first == second


def test_an_update_given_out_again_after_it_was_confirmed_has_the_same_id(
    api: BotApiStandin,
) -> None:
    pushed = api.push_text(ADA, "4b eggs")
    (first,) = hear(api.url, 1)
    api.push_again(pushed.update_id)
    api.push_text(ADA, "4c eggs")
    assert first in hear(api.url, 2)


def test_an_edit_names_what_it_corrects(api: BotApiStandin) -> None:
    with freeze_time("2027-05-12 10:15:00", real_asyncio=True):
        written = api.push_text(ADA, "4b egs no")
    with freeze_time("2027-05-12 10:16:00", real_asyncio=True):
        edited = api.push_edit(written, "4b no eggs")
    edited_at = datetime(2027, 5, 12, 10, 16, tzinfo=UTC)
    original, edit = hear(api.url, 2)
    assert edit.corrects == original.id == "5001:1"
    assert edit.id == f"5001:1:edit:{edited_at.timestamp():.0f}:{edited.update_id}"
    assert (edit.text, edit.sent_at) == ("4b no eggs", edited_at)


def test_two_edits_of_one_message_are_two_messages(api: BotApiStandin) -> None:
    written = api.push_text(ADA, "4b eggs")
    for minute, text in (("17", "4c eggs"), ("18", "4d eggs")):
        with freeze_time(f"2027-05-12 10:{minute}:00", real_asyncio=True):
            api.push_edit(written, text)
    assert len({message.id for message in hear(api.url, 3)}) == 3


def test_edits_within_one_second_all_count_and_each_once(api: BotApiStandin) -> None:
    written = api.push_text(ADA, "4b eggs")
    with freeze_time("2027-05-12 10:17:00", real_asyncio=True):
        edits = [api.push_edit(written, text) for text in ("4c eggs", "4d eggs", "4c eggs")]
    api.push_again(edits[2].update_id)
    said = [message for message in hear(api.url, 5) if message.corrects is not None]
    by_id = {message.id: message.text for message in said}
    assert len(said) == 4
    assert sorted(by_id.values()) == ["4c eggs", "4c eggs", "4d eggs"]


def test_a_tap_stands_for_its_text_and_is_answered(api: BotApiStandin) -> None:
    before = datetime.now(UTC)
    api.push_tap(ADA, 7, "4a-c eggs", "Ada")
    (tap,) = hear(api.url, 1)
    assert (tap.address, tap.id, tap.text) == ("5001", "tap:5001:7:4a-c eggs", "4a-c eggs")
    assert before <= tap.sent_at <= before + timedelta(seconds=10)
    assert api.answered_taps == ["tap-1"]


def test_two_taps_on_one_button_have_one_id(api: BotApiStandin) -> None:
    api.push_tap(ADA, 7, "4a eggs")
    api.push_tap(ADA, 7, "4a eggs")
    api.push_tap(ADA, 7, "4b eggs")
    first, second, other = hear(api.url, 3)
    assert first.id == second.id != other.id


def test_a_tap_counts_though_telegram_would_not_have_it_answered(api: BotApiStandin) -> None:
    api.next_call("answerCallbackQuery", bad_request("Bad Request: query is too old"))
    api.push_tap(ADA, 7, "4a eggs")
    assert [message.text for message in hear(api.url, 1)] == ["4a eggs"]
    assert api.answered_taps == []


def test_an_invite_link_sends_its_code(api: BotApiStandin) -> None:
    api.push_text(BEN, "/start river-42")
    assert [message.text for message in hear(api.url, 1)] == ["/start river-42"]


def test_a_text_over_the_carrier_s_length_is_handed_on_whole(api: BotApiStandin) -> None:
    text = "4b eggs " * 512 + "!"
    assert len(text) == 4097
    api.push_text(ADA, text)
    assert [message.text for message in hear(api.url, 1)] == [text]


@pytest.mark.parametrize(
    "content",
    [
        {"sticker": {"file_id": "a", "file_unique_id": "b", "type": "regular", "width": 1,
                     "height": 1, "is_animated": False, "is_video": False}},
        {"photo": [{"file_id": "a", "file_unique_id": "b", "width": 1, "height": 1}]},
        {"voice": {"file_id": "a", "file_unique_id": "b", "duration": 3}},
    ],
    ids=["sticker", "photo", "voice"],
)  # fmt: skip
def test_what_has_no_words_comes_empty_so_that_it_can_be_answered(
    api: BotApiStandin, content: dict[str, object]
) -> None:
    api.push_content(ADA, content)
    assert [(message.id, message.text) for message in hear(api.url, 1)] == [("5001:1", "")]


def test_the_line_under_a_photo_is_read(api: BotApiStandin) -> None:
    photo = [{"file_id": "a", "file_unique_id": "b", "width": 1, "height": 1}]
    api.push_content(ADA, {"photo": photo, "caption": "4b spotty"})
    assert [message.text for message in hear(api.url, 1)] == ["4b spotty"]


def test_a_shared_position_stands_for_what_would_be_typed(api: BotApiStandin) -> None:
    api.push_content(ADA, {"location": {"latitude": -35.123456, "longitude": 149.5}})
    (message,) = hear(api.url, 1)
    assert message.text == "location -35.12346, 149.50000"


def test_notices_groups_and_moving_positions_are_passed_over(api: BotApiStandin) -> None:
    live = {"location": {"latitude": 1.5, "longitude": 2.5, "live_period": 900}}
    api.push_content(ADA, {"message_auto_delete_timer_changed": {"message_auto_delete_time": 60}})
    api.push_content(-77, {"text": "4b eggs"}, kind="group")
    api.push_content(-77, {"new_chat_members": [{"id": 1, "is_bot": False, "first_name": "C"}]},
                     kind="group")  # fmt: skip
    position = api.push_content(ADA, live)
    api.push_edit_content(position, live)
    api.push_text(ADA, "4c eggs")
    assert [message.text for message in hear(api.url, 2)] == [
        "location 1.50000, 2.50000",
        "4c eggs",
    ]


def test_an_update_that_cannot_be_read_holds_nobody_up(api: BotApiStandin) -> None:
    api.push_text(ADA, "4a eggs")
    api.push_raw({"message": {"message_id": "no number", "chat": 3}})
    api.push_text(BEN, "4b eggs")
    assert [message.text for message in hear(api.url, 2)] == ["4a eggs", "4b eggs"]
    assert len(api.unconfirmed) == 0


def test_messages_arrive_in_the_order_they_were_written(api: BotApiStandin) -> None:
    texts = [f"{box}a eggs" for box in range(1, 251)]
    for text in texts:
        api.push_text(ADA, text)
    desk = Desk()
    hear(api.url, len(texts), desk)
    assert desk.texts == texts
