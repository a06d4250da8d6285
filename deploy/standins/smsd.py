"""Gammu's own message daemon on its own dummy phone, in a process of its own.

The daemon's loop is the one of gammu-smsd; python-gammu carries it in its wheel. The dummy phone
keeps what it "received" in a folder; what it is given to send it takes and forgets, so what was
sent is read from the daemon's folder and log.
"""

import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bot.channels.modem.folders import ModemFolders
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS

EXAMPLE = Path(__file__).parents[1] / "gammu-smsdrc.example"

_DAEMON = """
import signal, sys
import gammu.smsd
signal.signal(signal.SIGURG, lambda *_: None)
gammu.smsd.SMSD(sys.argv[1]).MainLoop()
"""
_WAKE = signal.SIGURG
"""Wakes the daemon from its sleep between two looks; it means nothing to one that just begins."""

AHEAD = timedelta(seconds=1.5)


def ahead() -> datetime:
    """A clock by which what the daemon wrote has lain for most of the time that it must lie."""
    return datetime.now(UTC) + AHEAD


_PHONE = """
import datetime, sys
import gammu
folder, first, number, text, order = sys.argv[1:]
said = {"Class": -1, "Unicode": not text.isascii(),
        "Entries": [{"ID": "ConcatenatedTextLong", "Buffer": text}]}
parts = gammu.EncodeSMS(said)
for part in parts:
    part |= {"Number": number, "Type": "Deliver", "State": "UnRead",
             "DateTime": datetime.datetime(2027, 5, 12, 10, 30)
             + datetime.timedelta(seconds=int(first))}
places = [int(place) for place in order.split()] or list(range(len(parts)))
for place, index in enumerate(places):
    if index < len(parts):
        gammu.SaveSMSBackup(f"{folder}/{int(first) + place}", [parts[index]])
print(len(parts))
"""


@dataclass
class Modem:
    """A dummy phone and its daemon's folders."""

    base: Path
    received: int = 0

    @property
    def folders(self) -> ModemFolders:
        """The folders by which the daemon and the program hand texts to each other."""
        return ModemFolders(self.base)

    @property
    def log(self) -> str:
        """All that the daemon wrote."""
        return (self.base / "log").read_text(encoding="utf-8", errors="replace")

    def receive(self, text: str, number: str, order: Sequence[int] = ()) -> int:
        """Let the phone receive a text, its parts in an order; gives how many parts it has."""
        folder = self.base / "phone" / "sms" / "1"
        words = [str(folder), str(1 + 20 * self.received), number, text, " ".join(map(str, order))]
        self.received += 1
        done = subprocess.run(
            [sys.executable, "-c", _PHONE, *words], check=True, capture_output=True
        )
        return int(done.stdout)

    def wait_until(self, true: Callable[[], bool], seconds: float = WAIT_AT_MOST_SECONDS) -> None:
        """Wait until something holds.

        Raises:
            TimeoutError: it did not hold in time; the message is the end of the daemon's log.
        """
        end = time.monotonic() + seconds
        while not true():
            if time.monotonic() > end:
                raise TimeoutError(self.log[-2000:])
            time.sleep(0.05)


@contextmanager
def running_daemon(base: Path) -> Iterator[Modem]:
    """Run the daemon with the settings that we ship, on a dummy phone."""
    for folder in ("phone/sms/1", "inbox", "outbox", "sent", "error"):
        (base / folder).mkdir(parents=True)
    (base / "smsdrc").write_text(_settings(base), encoding="utf-8")
    with (base / "shown").open("wb") as shown:
        daemon = subprocess.Popen(
            [sys.executable, "-c", _DAEMON, "smsdrc"], cwd=base, stdout=shown, stderr=shown
        )
    done = threading.Event()
    waker = threading.Thread(target=_wake, args=(daemon, base, done))
    waker.start()
    try:
        yield Modem(base)
    finally:
        done.set()
        waker.join()
        daemon.terminate()
        daemon.wait(WAIT_AT_MOST_SECONDS)


def _wake(daemon: "subprocess.Popen[bytes]", base: Path, done: threading.Event) -> None:
    """Wake the daemon while there is anything to carry.

    A look of the dummy phone tries 50,000 names of files, so that looking all the time would keep
    a core busy.
    """
    to_carry = (base / "phone/sms/1", base / "outbox")
    while not done.wait(0.05):
        if any(any(folder.iterdir()) for folder in to_carry):
            daemon.send_signal(_WAKE)


def _settings(base: Path) -> str:
    """Change the example to a dummy phone here, that sends as soon as it looks."""
    shipped = EXAMPLE.read_text(encoding="utf-8")
    here = shipped.replace("/var/spool/gammu", str(base)).replace("logfile = syslog", "")
    dummy = "model = dummy\nconnection = none\nport = phone\n"
    here = here.replace("device = /dev/ttyUSB0\nconnection = at\n", dummy)
    assert dummy in here
    here = here.replace("commtimeout = 5", "commtimeout = 0").replace(
        "sendtimeout = 30", "sendtimeout = 5"
    )
    never = ("receive", "status", "reset")
    asked = ("security", "battery", "signal", "network")
    quick = [f"{each}frequency = 0" for each in never] + [f"check{each} = 0" for each in asked]
    quick.append("loopsleep = 5")  # it is woken before
    return "\n".join([here, f"logfile = {base}/log", "debuglevel = 255", *quick, ""])
