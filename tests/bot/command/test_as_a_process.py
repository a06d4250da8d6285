"""The command as its own process: pipes, signals and the terminal, where no traceback may show."""

import os
import pty
import select
import signal
import subprocess
import sys
import termios
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

import pytest

from deploy.standins.program_beside import NO_FILE

ROOT = Path(__file__).parents[3]

COMMAND = [sys.executable, "-c", "import sys; from bot.command import main; main(sys.argv[1:])"]

_LOCAL_MODES = 3
"""Where ``tcgetattr`` keeps them."""

PATIENCE = 30.0
"""Seconds to wait for words to appear, on a machine that is busy with other tests."""


@pytest.fixture
def surroundings(tmp_path: Path) -> dict[str, str]:
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("YARDBELL_", "PYTHON"))}
    return kept | {
        **NO_FILE,
        "XDG_DATA_HOME": str(tmp_path),
        "PYTHONPATH": str(ROOT),
        "PYTHONWARNINGS": "error",
        "TERM": "dumb",
    }


def run(
    words: Sequence[str], surroundings: dict[str, str], folder: Path, typed: bytes = b""
) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [*COMMAND, *words],
        input=typed,
        capture_output=True,
        env=surroundings,
        cwd=folder,
        timeout=PATIENCE,
        check=False,
    )


def test_a_talk_over_a_pipe(surroundings: dict[str, str], tmp_path: Path) -> None:
    typed = "new yard Ä\nboxes 1-2 of 3\n".encode() + b"\xff\nyards\n"
    done = run(["chat", "--as", "Zoë"], surroundings, tmp_path, typed)
    assert (done.returncode, done.stderr) == (0, b"")
    assert "Zoë < Ä: 1 2 (6 units)" in done.stdout.decode()


def test_the_demo_without_a_terminal(surroundings: dict[str, str], tmp_path: Path) -> None:
    done = run(["demo"], surroundings, tmp_path)
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout.startswith(b"Ada < Wed 12 May, River:")


def test_a_mistake_is_one_line(surroundings: dict[str, str], tmp_path: Path) -> None:
    done = run(["timetable", "queen"], surroundings, tmp_path)
    assert (done.returncode, done.stdout, done.stderr.count(b"\n")) == (2, b"", 1)


def test_letters_the_terminal_does_not_know(surroundings: dict[str, str], tmp_path: Path) -> None:
    surroundings["PYTHONIOENCODING"] = "ascii"
    done = run(["chat", "--as", "Zoë"], surroundings, tmp_path, b"hello\n")
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout.decode().startswith("Zoë > hello\nZoë < ")


def test_letters_that_are_none(surroundings: dict[str, str], tmp_path: Path) -> None:
    done = run(["chat", "--as", os.fsdecode(b"\xff")], surroundings, tmp_path, b"begin\n")
    assert (done.returncode, done.stdout) == (2, b"")
    assert done.stderr == b"yardbell: a letter cannot be read or shown; give text as UTF-8\n"


def test_a_message_that_fails_is_two_lines_and_the_talk_goes_on(
    surroundings: dict[str, str], tmp_path: Path
) -> None:
    broken = (
        "import sys\n"
        "from bot.conversation import message_handler\n"
        "def respond(step): raise RuntimeError('the smoker\\nwent out')\n"
        "message_handler.respond = respond\n"
        "from bot.command import main\n"
        "main(sys.argv[1:])\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", broken, "chat", "--as", "Ada"],
        input=b"begin\ndue\nweek\n",
        capture_output=True,
        env=surroundings,
        cwd=tmp_path,
        timeout=PATIENCE,
        check=False,
    )
    assert done.returncode == 0
    complaints = done.stderr.decode().splitlines()
    assert len(complaints) == 4
    assert all(line.endswith("RuntimeError: the smoker") for line in complaints[::2])
    assert complaints[1::2] == ["yardbell: a message was set aside"] * 2
    assert done.stdout.count(b"Something went wrong on my side") == 2


@pytest.mark.parametrize("words", [["demo"], ["timetable", "cell"], ["--help"]])
def test_a_reader_who_leaves_is_not_complained_of(
    surroundings: dict[str, str], tmp_path: Path, words: list[str]
) -> None:
    reader, writer = os.pipe()
    os.close(reader)
    process = subprocess.Popen(
        [*COMMAND, *words],
        stdin=subprocess.DEVNULL,
        stdout=writer,
        stderr=subprocess.PIPE,
        env=surroundings,
        cwd=tmp_path,
    )
    os.close(writer)
    _, complaint = process.communicate(timeout=PATIENCE)
    assert complaint == b""


class AtTerminal:
    """A process at a terminal of its own."""

    def __init__(self, process: subprocess.Popen[bytes], screen: int) -> None:
        self.process = process
        self._screen = screen
        self.shown = ""

    def until(self, words: str) -> str:
        """What is shown up to these words, from where we had read; fails if they never come."""
        start, end = len(self.shown), time.monotonic() + PATIENCE
        while words not in self.shown[start:]:
            assert time.monotonic() < end, self.shown
            self._read()
        return self.shown[start:]

    def type(self, keys: str) -> None:
        """Press keys, once the line editor has taken the keyboard over."""
        self._wait_for_editor()
        os.write(self._screen, keys.encode())

    def interrupt(self) -> None:
        """Press Ctrl-C; again if it came too early, when it is kept until the next key."""
        self._wait_for_editor()
        for _ in range(5):
            time.sleep(0.2)
            self.process.send_signal(signal.SIGINT)
            ready, _, _ = select.select([self._screen], [], [], PATIENCE / 5)
            if ready:
                return

    def _wait_for_editor(self) -> None:
        end = time.monotonic() + PATIENCE
        while termios.tcgetattr(self._screen)[_LOCAL_MODES] & termios.ICANON:
            assert time.monotonic() < end, self.shown
            time.sleep(0.01)

    def ended(self) -> int:
        """Wait for the process to end; its exit code."""
        end = time.monotonic() + PATIENCE
        while self._read():
            assert time.monotonic() < end, self.shown
        return self.process.wait(PATIENCE)

    def _read(self) -> bool:
        ready, _, _ = select.select([self._screen], [], [], 1)
        try:
            more = os.read(self._screen, 65536) if ready else b""
        except OSError:
            # Linux says so when nobody is left at the other side.
            return False
        self.shown += more.decode(errors="replace").replace("\r\n", "\n")
        return bool(more) or self.process.poll() is None


@contextmanager
def at_terminal(
    words: Sequence[str], surroundings: dict[str, str], folder: Path
) -> Iterator[AtTerminal]:
    screen, keyboard = pty.openpty()
    process = subprocess.Popen(
        [*COMMAND, *words],
        stdin=keyboard,
        stdout=keyboard,
        stderr=keyboard,
        env=surroundings,
        cwd=folder,
        start_new_session=True,
    )
    os.close(keyboard)
    try:
        yield AtTerminal(process, screen)
    finally:
        process.kill()
        process.wait()
        os.close(screen)


def test_a_newcomer_at_a_terminal_is_told_what_to_do(
    surroundings: dict[str, str], tmp_path: Path
) -> None:
    with at_terminal(["chat", "--as", "Ada"], surroundings, tmp_path) as terminal:
        assert "Type begin" in terminal.until("Ada > ")
        terminal.type("begin\n")
        assert "Ada < Welcome Ada." in terminal.until("Dates are estimates.\nAda > ")
        terminal.type("\x04")
        assert terminal.ended() == 0
        assert terminal.shown.endswith("Ada > \n")


def test_keys_edit_the_line(surroundings: dict[str, str], tmp_path: Path) -> None:
    with at_terminal(["chat", "--as", "Ada"], surroundings, tmp_path) as terminal:
        terminal.until("Ada > ")
        # Ctrl-A goes to the start of the line, where Ctrl-K would leave nothing behind.
        terminal.type("egin\x01b\n")
        assert "Welcome Ada." in terminal.until("Dates are estimates.")
        terminal.type("\x04")
        assert terminal.ended() == 0


@pytest.mark.parametrize("words", [["chat", "--as", "Ada"], ["demo"]])
def test_an_interrupt_leaves_quietly(
    surroundings: dict[str, str], tmp_path: Path, words: list[str]
) -> None:
    with at_terminal(words, surroundings, tmp_path) as terminal:
        terminal.until("Ada > ")
        terminal.interrupt()
        assert terminal.ended() == 130
        assert "Traceback" not in terminal.shown


def test_the_demo_at_a_terminal_rings_and_then_answers_both(
    surroundings: dict[str, str], tmp_path: Path
) -> None:
    with at_terminal(["demo"], surroundings, tmp_path) as terminal:
        morning = terminal.until("Ada > ")
        assert "Ada < Wed 12 May, River:" in morning
        assert "Milo < Wed 12 May, River:" in morning
        terminal.type("river 1a-c eggs\n")
        assert "Ada < Noted: River 1 eggs." in terminal.until("takes it back.\nAda > ")
        terminal.type("milo: due\n")
        assert "Ada noted: River 1 eggs." in terminal.until("Ada > ")
        terminal.type("\x04")
        assert terminal.ended() == 0
