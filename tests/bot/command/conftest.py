"""The command as a person runs it, on a data folder and a database of the test's own."""

import asyncio
import io
import shutil
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bot.channels.console import NAME, ConsoleChannel, typed
from bot.command import main
from bot.conversation.message_handler import MessageHandler
from bot.delivery.intake import Intake
from bot.delivery.sender import deliver_all
from scheduling.records.engine import open_engine
from scheduling.records.migrate import migrate


@dataclass(frozen=True)
class Said:
    """What a run of the command printed, and its exit code."""

    code: int
    out: str
    err: str

    @property
    def complaint(self) -> str:
        """The one line on stderr of a run that was refused, and printed nothing else."""
        assert (self.code, self.out) == (2, ""), self
        assert self.err.startswith("yardbell: "), self
        assert self.err.count("\n") == 1, self
        return self.err.removeprefix("yardbell: ").strip()


class Yardbell:
    """Runs the command in this process."""

    def __init__(
        self, capture: pytest.CaptureFixture[str], patch: pytest.MonkeyPatch, folder: Path
    ) -> None:
        self._capture = capture
        self._patch = patch
        self.folder = folder
        self.database = folder / "bees.sqlite"

    def __call__(self, *words: str, typed: str = "") -> Said:
        """Run ``yardbell WORDS`` with ``typed`` piped in."""
        self._patch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(typed.encode())))
        self._capture.readouterr()
        with pytest.raises(SystemExit) as ended:
            main(list(words))
        code = ended.value.code
        assert isinstance(code, int)
        return Said(code, *self._capture.readouterr())

    def good(self, *words: str, typed: str = "") -> str:
        """What a run prints that must go well and complain of nothing."""
        said = self(*words, typed=typed)
        assert (said.code, said.err) == (0, ""), said
        return said.out

    def chat(self, name: str, *lines: str, on: str = "2027-05-01") -> str:
        """A talk of one person, a line each."""
        return self.good("chat", "--as", name, "--on", on, typed="\n".join(lines) + "\n")


@pytest.fixture
def yardbell(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> Yardbell:
    """The command; its data folder is new, and no setting of the machine reaches it."""
    for setting in ("TELEGRAM_TOKEN", "TELEGRAM_URL", "LOG_LEVEL"):
        monkeypatch.delenv(f"YARDBELL_{setting}", raising=False)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("YARDBELL_DATABASE", f"sqlite:///{tmp_path / 'bees.sqlite'}")
    monkeypatch.chdir(tmp_path)
    return Yardbell(capsys, monkeypatch, tmp_path)


@pytest.fixture(scope="session")
def river_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database with Ada's crew and her yard River, made once and copied."""
    file = tmp_path_factory.mktemp("river") / "bees.sqlite"
    engine = open_engine(f"sqlite:///{file}")
    migrate(engine)
    now = datetime(2027, 5, 1, 6, tzinfo=UTC)
    for text in ("new yard River", "boxes 1-3 of 3", "10 day cells in 1-2"):
        Intake(engine, MessageHandler()).receive(typed("Ada", text, now), now)
    asyncio.run(deliver_all(engine, {NAME: ConsoleChannel(lambda _line: None)}, lambda: now))
    engine.dispose()
    return file


@pytest.fixture
def river(yardbell: Yardbell, river_file: Path) -> Yardbell:
    """Ada's crew: ten day cells in boxes 1 and 2 of her yard River, since 1 May 2027 (invented)."""
    shutil.copy(river_file, yardbell.database)
    return yardbell
