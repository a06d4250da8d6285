"""Both ways over Gammu's own daemon and its dummy phone."""

import asyncio
import random
from collections.abc import Callable, Iterator
from datetime import timedelta
from pathlib import Path

import pytest

from bot.channels.channel import OutgoingMessage, SendOutcome, SendResult, present
from bot.channels.modem.channel import ModemChannel
from bot.channels.modem.folders import SETTLED
from deploy.standins.smsd import AHEAD, Modem, ahead, running_daemon
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from tests.bot.channels.taking_in import TakenIn

ADA, MILO = "+12025550123", "+12025550199"


@pytest.fixture(scope="module")
def modem(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Modem]:
    with running_daemon(tmp_path_factory.mktemp("modem")) as modem:
        yield modem


def send(modem: Modem, *letters: OutgoingMessage) -> list[SendOutcome]:
    async def run() -> list[SendOutcome]:
        channel = ModemChannel(modem.folders)
        return [await channel.send(outgoing) for outgoing in letters]

    return asyncio.run(run())


def hear(modem: Modem, enough: Callable[[TakenIn], bool], taken: TakenIn | None = None) -> TakenIn:
    """Listen until enough came in and its files are gone: one cut off before would come again."""
    taken = taken or TakenIn(present())

    async def run() -> None:
        channel = ModemChannel(modem.folders, "US", taken.report, ahead, timedelta(milliseconds=50))
        listening = asyncio.create_task(channel.listen(taken.receive))
        async with asyncio.timeout(WAIT_AT_MOST_SECONDS):
            while not enough(taken) or any(modem.folders.inbox.iterdir()):
                await asyncio.sleep(0.05)
        listening.cancel()
        await asyncio.gather(listening, return_exceptions=True)

    asyncio.run(run())
    return taken


def sent_file(modem: Modem, own: str | None) -> Path | None:
    return next(modem.folders.sent.glob(f"*_{own}.txt"), None)


def test_a_morning_is_sent_by_the_daemon(modem: Modem) -> None:
    (outcome,) = send(modem, OutgoingMessage(ADA, "Open today in River: 4a-c 6b", key="17"))
    assert outcome.result is SendResult.SENT
    modem.wait_until(lambda: sent_file(modem, outcome.carrier_id) is not None)
    assert f"to {ADA}, message reference" in modem.log
    assert "Open today in River: 4a-c 6b" in modem.log


# The daemon cuts by itself; its log tells how many parts it made of it.
def test_a_long_morning_goes_in_as_many_parts_as_we_count(modem: Modem) -> None:
    text = "y" * 307
    (outcome,) = send(modem, OutgoingMessage(ADA, text, key="18"))
    modem.wait_until(lambda: sent_file(modem, outcome.carrier_id) is not None)
    assert f'Found 3 sms to "{ADA}"' in modem.log


def test_a_letter_tried_twice_is_sent_once(modem: Modem) -> None:
    outgoing = OutgoingMessage(MILO, "Once only", key="19")
    first, second = send(modem, outgoing, outgoing)
    modem.wait_until(lambda: sent_file(modem, first.carrier_id) is not None)
    (third,) = send(modem, outgoing)
    assert first == second == third
    assert len(list(modem.base.glob(f"*/*_{first.carrier_id}.txt"))) == 1


def test_a_reply_reaches_the_desk_and_its_file_goes(modem: Modem) -> None:
    modem.receive("4a eggs, 5b no eggs", ADA)
    taken = hear(modem, lambda taken: bool(taken.messages))
    (message,) = taken.messages
    assert (message.channel, message.address, message.text) == ("sms", ADA, "4a eggs, 5b no eggs")
    assert abs(message.sent_at - present()) < timedelta(minutes=2)
    assert list(modem.folders.inbox.iterdir()) == []


def test_a_national_number_and_any_alphabet_arrive_whole(modem: Modem) -> None:
    text = "4b \N{VULGAR FRACTION ONE HALF} рамка \N{HONEYBEE}"
    modem.receive(text, "2025550142")
    taken = hear(modem, lambda taken: bool(taken.messages))
    assert [(one.address, one.text) for one in taken.messages] == [("+12025550142", text)]


@pytest.mark.parametrize("letters", ["plain", "other"])
def test_parts_that_came_in_any_order_are_joined(modem: Modem, letters: str) -> None:
    text = ", ".join(f"{box}a eggs {box}b no eggs" for box in range(1, 26))
    text = text if letters == "plain" else text[:150].replace("eggs", "яйца")
    order = [3, 0, 2, 1]
    assert modem.receive(text, ADA, order) in (3, 4)
    taken = hear(modem, lambda taken: bool(taken.messages))
    assert taken.texts == [text]


def test_a_message_that_was_not_stored_stays_and_comes_again(modem: Modem) -> None:
    taken = TakenIn(present(), full=True)
    modem.receive("6a dud", ADA)
    modem.wait_until(lambda: bool(list(modem.folders.inbox.iterdir())))

    async def run() -> None:
        channel = ModemChannel(modem.folders, clock=ahead, look_again=timedelta(milliseconds=50))
        listening = asyncio.create_task(channel.listen(taken.receive))
        await asyncio.sleep((SETTLED - AHEAD).total_seconds() + 0.5)
        listening.cancel()
        await asyncio.gather(listening, return_exceptions=True)

    asyncio.run(run())
    assert (taken.messages, len(list(modem.folders.inbox.iterdir()))) == ([], 1)
    taken.full = False
    assert hear(modem, lambda taken: bool(taken.messages), taken).texts == ["6a dud"]


def test_many_messages_from_many_phones_all_arrive(modem: Modem) -> None:
    rng = random.Random(3)  # noqa: S311 - examples, no secrets
    texts = {
        f"+1202555{n:04d}": f"{rng.randint(1, 60)}{rng.choice('abc')} eggs" for n in range(100, 105)
    }
    for number, text in texts.items():
        modem.receive(text, number)
    taken = hear(modem, lambda taken: len(taken.messages) >= len(texts))
    assert {one.address: one.text for one in taken.messages} == texts
