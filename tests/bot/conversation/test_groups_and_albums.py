"""A group is told once where to talk to the bot; an album is answered once."""

from datetime import UTC, datetime

import pytest

from bot.channels.channel import IncomingMessage
from deploy.standins.phones import Phones, river_of_three

NOON = datetime(2027, 5, 12, 12, tzinfo=UTC)


def picture(number: int, album: str | None = "album 1", caption: str = "") -> IncomingMessage:
    return IncomingMessage("phone", "Ada", f"picture {number}", caption, NOON, "Ada", album=album)


def test_a_group_is_told_in_one_line_where_to_talk(phones: Phones) -> None:
    added = IncomingMessage("phone", "-500", "added:-500:1", "", NOON, in_group=True)

    assert phones.hand_in(added) == "I answer in private chats only: tap my name here, then Start."
    assert phones.hand_in(added) == ""


def test_three_pictures_of_one_album_get_one_answer(phones: Phones) -> None:
    river_of_three(phones)

    answers = [phones.hand_in(picture(number)) for number in range(3)]

    assert answers[0].startswith("I read text only")
    assert answers[1:] == ["", ""]


def test_the_line_under_the_first_picture_is_all_that_is_answered(phones: Phones) -> None:
    river_of_three(phones)

    first = phones.hand_in(picture(1, caption="2a eggs"))

    assert first.startswith("Noted: 2a eggs.")
    assert phones.hand_in(picture(2)) == ""


def test_a_line_under_a_later_picture_is_noted(phones: Phones) -> None:
    river_of_three(phones)
    phones.hand_in(picture(1))

    assert phones.hand_in(picture(2, caption="2a eggs")).startswith("Noted: 2a eggs.")


@pytest.mark.parametrize("albums", [(None, None), ("album 1", "album 2")])
def test_pictures_of_no_common_album_are_answered_each(
    phones: Phones, albums: tuple[str | None, str | None]
) -> None:
    river_of_three(phones)

    for number, album in enumerate(albums):
        assert phones.hand_in(picture(number, album)).startswith("I read text only")
