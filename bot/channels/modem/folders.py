"""The daemon's folders and how files in them are named.

The "files" service of gammu-smsd: gammu-smsd-files(7), docs.gammu.org/smsd/files.html. The daemon
is a program of its own (GPL); nothing of it runs in ours.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

SETTLED = timedelta(seconds=2)
"""How long a received file must have lain: the daemon writes a long message's parts at once, one
file each, and only when all of them came."""

_NAME = re.compile(r"(IN\d{8}_\d{6}_\d+_(.*))_(\d+)\.txt")


@dataclass(frozen=True)
class ModemFolders:
    """One folder with the daemon's four in it."""

    base: Path

    @property
    def inbox(self) -> Path:
        """Received messages, one file for each part."""
        return self.base / "inbox"

    @property
    def outbox(self) -> Path:
        """Messages to be sent."""
        return self.base / "outbox"

    @property
    def sent(self) -> Path:
        """Messages that the network took."""
        return self.base / "sent"

    @property
    def errors(self) -> Path:
        """Messages that the daemon gave up."""
        return self.base / "error"

    def missing(self) -> str | None:
        """Name a folder that is not there; None if all are."""
        every = (self.inbox, self.outbox, self.sent, self.errors)
        return next((str(folder) for folder in every if not folder.is_dir()), None)


@dataclass(frozen=True)
class Received:
    """A received message: its files in order, and whom they name as its sender."""

    name: str
    sender: str
    files: Sequence[Path]

    @property
    def at(self) -> datetime:
        """When the daemon wrote it. The name's own time is the network's, of no known zone."""
        return datetime.fromtimestamp(self.files[0].stat().st_mtime, UTC)

    def text(self) -> str:
        """Give its words, joined before they are read: a phone may cut a letter in two."""
        octets = b"".join(file.read_bytes().removeprefix(b"\xfe\xff") for file in self.files)
        return octets.decode("utf-16-be", errors="replace")


def received(folders: ModemFolders, now: datetime) -> Iterator[Received]:
    """Give the messages that lie in the inbox whole, in the order of their names."""
    found: dict[tuple[str, str], list[tuple[int, Path]]] = {}
    for file in folders.inbox.iterdir():
        name = _NAME.fullmatch(file.name)
        if name is not None:
            found.setdefault((name[1], name[2]), []).append((int(name[3]), file))
    for (name_of_all, sender), parts in sorted(found.items()):
        message = Received(name_of_all, sender, [file for _, file in sorted(parts)])
        if all(_settled(file, now) for file in message.files):
            yield message


def _settled(file: Path, now: datetime) -> bool:
    return now - datetime.fromtimestamp(file.stat().st_mtime, UTC) >= SETTLED


def put_out(folders: ModemFolders, number: str, text: str, own: str, now: datetime) -> None:
    """Put a message out for the daemon, whole at once, unless it was put out before.

    Args:
        folders: the daemon's.
        number: in full, with a +.
        text: the words.
        own: our name of the message, letters and digits.
        now: aware instant; the daemon sends in the order of names, and so of instants.

    Raises:
        OSError: it could not be written.
    """
    if any(any(each.glob(f"*_{own}.*")) for each in (folders.outbox, folders.sent, folders.errors)):
        return
    waiting = folders.outbox / f"{own}.part"
    waiting.write_bytes(b"\xff\xfe" + text.encode("utf-16-le"))
    waiting.replace(folders.outbox / f"OUTA{now:%Y%m%d_%H%M%S}_00_{number}_{own}.txt")


def given_up(folders: ModemFolders) -> Iterator[str]:
    """Give our names of the messages that the daemon gave up."""
    for file in folders.errors.glob("OUT*_*.txt"):
        yield file.stem.rpartition("_")[2]
