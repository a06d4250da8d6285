"""What lies in the folders, whoever put it there."""

import asyncio
import os
from datetime import timedelta
from pathlib import Path

import pytest

from bot.channels.channel import ChannelBroken, OutgoingMessage, SendResult, present
from bot.channels.modem.channel import ModemChannel
from bot.channels.modem.folders import SETTLED, ModemFolders, received
from bot.channels.reports import Delivery
from bot.channels.send_error import SendError
from tests.bot.channels.taking_in import TakenIn

ADA = "+12025550123"


@pytest.fixture
def folders(tmp_path: Path) -> ModemFolders:
    for name in ("inbox", "outbox", "sent", "error"):
        (tmp_path / name).mkdir()
    return ModemFolders(tmp_path)


def lay(folders: ModemFolders, name: str, text: str, age: timedelta = SETTLED * 2) -> None:
    file = folders.inbox / name
    file.write_bytes(b"\xfe\xff" + text.encode("utf-16-be"))
    at = (present() - age).timestamp()
    os.utime(file, (at, at))


def look(folders: ModemFolders, seconds: float = 0.3) -> TakenIn:
    taken = TakenIn(present())

    async def run() -> None:
        channel = ModemChannel(folders, "US", taken.report, look_again=timedelta(milliseconds=20))
        listening = asyncio.create_task(channel.listen(taken.receive))
        await asyncio.sleep(seconds)
        listening.cancel()
        await asyncio.gather(listening, return_exceptions=True)

    asyncio.run(run())
    return taken


def test_a_message_still_being_written_waits(folders: ModemFolders) -> None:
    lay(folders, f"IN20270512_103005_00_{ADA}_00.txt", "4a eggs, ")
    lay(folders, f"IN20270512_103005_00_{ADA}_01.txt", "5b no eggs", age=timedelta(0))
    assert list(received(folders, present())) == []
    assert look(folders).messages == []


def test_ten_parts_are_joined_by_their_numbers(folders: ModemFolders) -> None:
    for number in reversed(range(11)):
        lay(folders, f"IN20270512_103005_00_{ADA}_{number:02d}.txt", f"{number} ")
    assert look(folders).texts == ["0 1 2 3 4 5 6 7 8 9 10 "]


def test_a_letter_cut_between_two_files_is_whole(folders: ModemFolders) -> None:
    octets = "4a \N{HONEYBEE}".encode("utf-16-be")
    for number, half in enumerate((octets[:8], octets[8:])):
        lay(folders, f"IN20270512_103005_00_{ADA}_0{number}.txt", "")
        file = folders.inbox / f"IN20270512_103005_00_{ADA}_0{number}.txt"
        file.write_bytes(b"\xfe\xff" + half)
        old = (present() - SETTLED * 2).timestamp()
        os.utime(file, (old, old))
    assert look(folders).texts == ["4a \N{HONEYBEE}"]


def test_what_is_not_a_message_is_left_alone(folders: ModemFolders) -> None:
    names = ["notes.txt", "IN.txt", f"IN20270512_103005_00_{ADA}_00.bin", ".hidden"]
    for name in names:
        lay(folders, name, "x")
    assert look(folders).messages == []
    assert {file.name for file in folders.inbox.iterdir()} == set(names)


def test_a_sender_that_cannot_be_answered_is_put_away(folders: ModemFolders) -> None:
    lay(folders, "IN20270512_103005_00_YARDS_00.txt", "win a prize")
    assert look(folders).messages == []
    assert list(folders.inbox.iterdir()) == []


def test_a_message_that_the_daemon_gave_up_is_reported_once(folders: ModemFolders) -> None:
    async def put_out() -> str:
        outcome = await ModemChannel(folders).send(OutgoingMessage(ADA, "4b eggs", key="17"))
        assert outcome.carrier_id is not None
        return outcome.carrier_id

    own = asyncio.run(put_out())
    (file,) = folders.outbox.iterdir()
    file.rename(folders.errors / file.name)
    (report,) = look(folders).reports
    assert (report.carrier_id, report.delivery) == (own, Delivery.FAILED)
    assert report.error is SendError.CARRIER_FAILED


def test_the_daemon_never_sees_half_a_letter(folders: ModemFolders) -> None:
    asyncio.run(ModemChannel(folders).send(OutgoingMessage(ADA, "4b eggs", key="17")))
    (file,) = folders.outbox.iterdir()
    assert file.name.startswith("OUTA")
    assert file.read_bytes().decode("utf-16") == "4b eggs"


@pytest.mark.parametrize(
    ("outgoing", "send_error"),
    [
        (OutgoingMessage(ADA, " "), SendError.BLANK),
        (OutgoingMessage("../../x", "4b eggs"), SendError.NO_ADDRESS),
    ],
)
def test_what_can_never_be_sent_is_refused(
    folders: ModemFolders, outgoing: OutgoingMessage, send_error: SendError
) -> None:
    outcome = asyncio.run(ModemChannel(folders).send(outgoing))
    assert (outcome.result, outcome.error) == (SendResult.REFUSED, send_error)
    assert list(folders.outbox.iterdir()) == []


def test_without_its_folders_nothing_is_sent_and_listening_says_which(tmp_path: Path) -> None:
    channel = ModemChannel(ModemFolders(tmp_path))
    assert asyncio.run(channel.send(OutgoingMessage(ADA, "4b eggs"))).result is SendResult.LATER
    with pytest.raises(ChannelBroken, match="inbox is not there"):
        asyncio.run(channel.listen(TakenIn(present()).receive))


def test_a_file_that_cannot_be_read_holds_up_no_other(folders: ModemFolders) -> None:
    lay(folders, f"IN20270512_103005_00_{ADA}_00.txt", "4a eggs")
    lay(folders, f"IN20270512_103009_00_{ADA}_00.txt", "5b no eggs")
    bad = folders.inbox / f"IN20270512_103001_00_{ADA}_00.txt"
    bad.mkdir()
    old = (present() - SETTLED * 2).timestamp()
    os.utime(bad, (old, old))
    assert look(folders).texts == ["4a eggs", "5b no eggs"]
