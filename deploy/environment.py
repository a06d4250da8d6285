"""Makes the environment in ``.venv`` fit what is needed."""

import shutil
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TextIO

from deploy.checkout import Checkout, Need, SetupError
from deploy.installer import install
from deploy.readiness import is_ready, must_be_remade
from deploy.stamp import UNFINISHED, stamp_path, stamp_text, write_finished, write_unfinished


def set_up_alone(checkout: Checkout, need: Need) -> None:
    """Set up while no other start does, unless one has just done it; may raise SetupError."""
    with one_at_a_time(checkout):
        if not is_ready(checkout, need):
            set_up(checkout, need)


def set_up(checkout: Checkout, need: Need) -> None:
    """Make the environment if it must be, and install what ``need`` asks for."""
    began = time.monotonic()
    print(f"Setting Yardbell up in {checkout.venv} ...", file=sys.stderr, flush=True)
    if must_be_remade(checkout):
        make_anew(checkout)
    before = stamp_text(checkout)
    write_unfinished(checkout)
    try:
        install(checkout, need)
    except SetupError:
        put_back(checkout, before)
        raise
    write_finished(checkout, need)
    print(f"Ready after {time.monotonic() - began:.0f} s.", file=sys.stderr, flush=True)


def put_back(checkout: Checkout, before: str | None) -> None:
    """Let an environment that was whole stay in use when only its renewal was refused."""
    if before is None:
        stamp_path(checkout).unlink()
    elif before != UNFINISHED:
        stamp_path(checkout).write_text(before, encoding="utf-8")


def make_anew(checkout: Checkout) -> None:
    """Clear ``.venv`` away and make an empty environment, without pip, in its stead."""
    try:
        from venv import EnvBuilder
    except ImportError:
        raise SetupError(
            "Yardbell needs Python's venv module (on Debian or Ubuntu: apt install python3-venv)"
        ) from None
    if checkout.venv.is_dir():
        # First, so that a removal cut short leaves nothing that looks whole.
        (checkout.venv / "pyvenv.cfg").unlink(missing_ok=True)
        shutil.rmtree(checkout.venv)
    write_unfinished(checkout)
    EnvBuilder(with_pip=False, symlinks=sys.platform != "win32").create(checkout.venv)


@contextmanager
def one_at_a_time(checkout: Checkout) -> Iterator[None]:
    """Hold the checkout, so that two first starts follow each other."""
    with (checkout.root / ".venv.lock").open("a", encoding="utf-8") as file:
        hold(file)
        yield


def hold(file: TextIO) -> None:
    """Wait for the lock on ``file``; it falls with the file, even when the process is killed.

    Windows has no such lock; there two first starts are not kept apart.
    """
    if sys.platform != "win32":
        import fcntl

        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            print("Another start is setting Yardbell up; waiting for it.", file=sys.stderr)
            fcntl.flock(file, fcntl.LOCK_EX)
