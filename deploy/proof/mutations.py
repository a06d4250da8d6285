"""Mutations: one-line changes that must each make a test fail, and which no test notices.

They stand in ``mutations/``, a file for each subject: the file and the text in it that is changed,
what it becomes, and the test files that must fail. Each is tried in a scratch copy of the checkout.
"""

import os
import shutil
import signal
import subprocess
import sys
import time
import tomllib
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from queue import SimpleQueue
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[2]

LISTS = Path(__file__).parent / "mutations"

LIMIT_SECONDS = 180
"""How long the tests of one mutation may take; a change that makes them hang is noticed too."""

_LEFT_OUT = (".git", ".venv", "__pycache__", ".*_cache", ".hypothesis", "build", "*.egg-info")

_PYTEST = ("-m", "pytest", "-x", "-q", "-n", "0", "-p", "no:cacheprovider")
# What fails on SQLite need not be tried on a server, which takes twice as long.
_ONE_DATABASE = ("-k", "not postgresql")

_FAILED = 1
"""What pytest ends with when a test failed; anything higher says that none could be run."""


@dataclass(frozen=True)
class Mutation:
    """A change of one line.

    Attributes:
        subject: what it is about.
        what: what the program does wrong with it.
        file: the file, from the checkout's folder on.
        old: the text that is changed; it stands there once.
        new: what it becomes.
        tests: the test files of which one must fail.
    """

    subject: str
    what: str
    file: str
    old: str
    new: str
    tests: tuple[str, ...]


class Outcome(StrEnum):
    """What came of a mutation."""

    CAUGHT = "caught"
    TOO_LONG = "caught, too long"
    SURVIVED = "SURVIVED"
    BROKEN = "NOT RUN"


NOTICED = (Outcome.CAUGHT, Outcome.TOO_LONG)


def all_mutations() -> list[Mutation]:
    """Read the lists."""
    return [
        Mutation(list_.stem, **{**each, "tests": tuple(each["tests"])})
        for list_ in sorted(LISTS.glob("*.toml"))
        for each in tomllib.loads(list_.read_text())["mutation"]
    ]


def unfit(mutations: Sequence[Mutation], root: Path = ROOT) -> Iterator[str]:
    """Name those that do not fit the code: what is changed must stand there exactly once."""
    for each in mutations:
        file = root / each.file
        found = file.read_text().count(each.old) if file.is_file() else 0
        if found != 1:
            yield f"{each.file}: {each.old!r} stands there {found} times"
        if each.new == each.old or "\n" in each.old + each.new:
            yield f"{each.file}: {each.old!r} is not changed, or is more than a line"
        yield from (f"{test} is not there" for test in each.tests if not (root / test).is_file())


@dataclass(frozen=True)
class Copy:
    """A scratch copy of the checkout, in which one mutation at a time is tried."""

    folder: Path

    def tried(self, mutation: Mutation) -> Outcome:
        """Run the tests of a mutation with it in place."""
        with self._in_place(mutation):
            return self.outcome(mutation.tests)

    def outcome(self, tests: Sequence[str]) -> Outcome:
        """Run tests, one after the other, until one fails."""
        command = [sys.executable, *_PYTEST, *_ONE_DATABASE, *tests]
        running = subprocess.Popen(
            command,
            cwd=self.folder,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        try:
            ended = running.wait(LIMIT_SECONDS)
        except subprocess.TimeoutExpired:
            _end(running)
            return Outcome.TOO_LONG
        if ended > _FAILED:
            return Outcome.BROKEN
        return Outcome.CAUGHT if ended == _FAILED else Outcome.SURVIVED

    @contextmanager
    def _in_place(self, mutation: Mutation) -> Iterator[None]:
        file = self.folder / mutation.file
        before = file.read_text()
        try:
            self._write(file, before.replace(mutation.old, mutation.new))
            yield
        finally:
            self._write(file, before)

    def _write(self, file: Path, text: str) -> None:
        file.write_text(text)
        # Compiled within the same second and of the same length it would be taken for the old one.
        for compiled in (file.parent / "__pycache__").glob(f"{file.stem}.*.pyc"):
            compiled.unlink()


def _end(running: "subprocess.Popen[bytes]") -> None:
    """End a test run, and let it put away what it started."""
    os.killpg(running.pid, signal.SIGTERM)
    try:
        running.wait(15)
    except subprocess.TimeoutExpired:
        os.killpg(running.pid, signal.SIGKILL)
        running.wait()


@contextmanager
def copies(number: int) -> Iterator["SimpleQueue[Copy]"]:
    """So many scratch copies, free to be taken."""
    free: SimpleQueue[Copy] = SimpleQueue()
    with ExitStack() as kept:
        for _ in range(number):
            folder = Path(kept.enter_context(TemporaryDirectory())) / "checkout"
            shutil.copytree(ROOT, folder, ignore=shutil.ignore_patterns(*_LEFT_OUT))
            free.put(Copy(folder))
        yield free


def not_passing(tests: Sequence[str], free: "SimpleQueue[Copy]") -> list[str]:
    """Name the tests that fail without any change: they would notice every mutation."""
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        outcomes = pool.map(lambda test: _run(free, test), tests)
        found = zip(tests, outcomes, strict=True)
        return [test for test, outcome in found if outcome is not Outcome.SURVIVED]


def _run(free: "SimpleQueue[Copy]", what: str | Mutation) -> Outcome:
    copy = free.get()
    try:
        return copy.outcome([what]) if isinstance(what, str) else copy.tried(what)
    finally:
        free.put(copy)


def mutated(mutations: Sequence[Mutation]) -> bool:
    """Try mutations, print what came of each, and tell whether all were noticed."""
    wrong = list(unfit(mutations))
    began = time.monotonic()
    with copies(os.cpu_count() or 1) as free:
        tests = sorted({test for each in mutations for test in each.tests})
        wrong += [f"{test} fails as it is" for test in not_passing(tests, free)]
        if wrong:
            print("mutations:", *wrong, sep="\n  ")
            return False
        print(f"{len(tests)} test files pass, {time.monotonic() - began:.0f} s", flush=True)
        with ThreadPoolExecutor(os.cpu_count()) as pool:
            found = pool.map(lambda each: (each, _timed(free, each)), mutations)
            outcomes = [_told(mutation, *of) for mutation, of in found]
    survived = [each for each, outcome in zip(mutations, outcomes, strict=True) if not outcome]
    print(
        f"mutations: {len(mutations)} tried, {len(survived)} survived, "
        f"{time.monotonic() - began:.0f} s",
        *(f"survived: {each.file}: {each.old.strip()} -> {each.new.strip()}" for each in survived),
        sep="\n  ",
    )
    return not survived


def _timed(free: "SimpleQueue[Copy]", mutation: Mutation) -> tuple[Outcome, float]:
    began = time.monotonic()
    return _run(free, mutation), time.monotonic() - began


def _told(mutation: Mutation, outcome: Outcome, seconds: float) -> bool:
    print(f"  {outcome:<9} {seconds:4.0f} s  {mutation.subject}: {mutation.what}", flush=True)
    return outcome in NOTICED
