"""``yardbell serve`` by a shared clock and with shorter waits: ``python -m deploy.proof.worker``.

It is the program's own serving in every other way, and can only be had by the proofs.
"""

import asyncio
import os
import time
from datetime import datetime, timedelta
from pathlib import Path

from bot.channels.telegram.channel import TelegramChannel
from bot.command.database import open_database
from bot.delivery.dispatcher import App
from bot.gc_tuning import collect_rarely
from bot.program_log import log_privately
from bot.serving import serve
from bot.settings.load import load_settings
from bot.wording.help import MENU
from deploy.standins.program_beside import NO_FILE
from deploy.standins.quick_retry import QUICK


class SharedClock:
    """The clock in a file; ``rate`` seconds pass on it in each real one, 0 lets it stand."""

    def __init__(self, file: Path) -> None:
        self._file = file

    def __call__(self) -> datetime:
        """The instant it shows, aware, in UTC."""
        shown, since, rate = self._file.read_text().split()
        passed = timedelta(seconds=(time.time() - float(since)) * float(rate))
        return datetime.fromisoformat(shown) + passed

    def set(self, to: datetime, rate: float) -> None:
        """Set it, for all processes at once."""
        new = self._file.with_suffix(".new")
        new.write_text(f"{to.isoformat()} {time.time()!r} {rate}")
        new.replace(self._file)


CLOCK = "PROOF_CLOCK"
"""The variable that names the clock's file."""

ANSWER_WITHIN = timedelta(seconds=3)
POLL_FOR = timedelta(milliseconds=300)


def begin(settings: dict[str, str], folder: Path) -> None:
    """Serve in a forked process by these settings, writing to the log in ``folder``."""
    log = os.open(folder / "log", os.O_WRONLY | os.O_APPEND | os.O_CREAT)
    for stream in (1, 2):
        os.dup2(log, stream)
    os.chdir(folder)
    for name in [name for name in os.environ if name.startswith("YARDBELL_")]:
        del os.environ[name]
    os.environ.update(NO_FILE, **settings)
    main()


def main() -> None:
    """Serve until told to stop."""
    settings = load_settings()
    log_privately(settings.log_level)
    assert settings.telegram.token is not None
    channel = TelegramChannel(
        settings.telegram.token.get_secret_value(),
        settings.telegram.url,
        commands=MENU,
        poll_for=POLL_FOR,
        answer_within=ANSWER_WITHIN,
        retry=QUICK,
    )
    clock = SharedClock(Path(os.environ[CLOCK]))
    collect_rarely()
    engine = open_database(settings.database_url)
    asyncio.run(serve(App(engine, {channel.traits.name: channel}, clock=clock)))


if __name__ == "__main__":
    main()
