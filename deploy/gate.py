"""Runs every check that a change must pass, and stops at none of them."""

import os
import subprocess
import sys
from functools import partial
from typing import IO

from deploy.environment import Checkout, clean

TESTS_AT_ONCE = (os.cpu_count() or 1) + 1
"""One more than there are cores, because many tests wait for a carrier's pace or a server."""

SLOWEST = 20
"""How many of the slowest tests are named at the end."""

STATIC = (
    ("ruff", "check", "--quiet", "."),
    ("ruff", "format", "--check", "--quiet", "."),
    ("mypy",),
    ("lint-imports",),
)
TESTS = ("pytest", "--numprocesses", str(TESTS_AT_ONCE), "--durations", str(SLOWEST))


def run_checks(checkout: Checkout, words: list[str]) -> int:
    """Run all checks, handing ``words`` to pytest, and return 0 only if all are clean.

    The tests run beside the static checks, which keep one core busy at a time. What they say is
    shown after those, so that their own summary is the last line.
    """
    with _started(checkout, (*TESTS, *words), stdout=subprocess.PIPE) as tests:
        failed = [" ".join(check) for check in STATIC if not passes(checkout, check)]
        if failed:
            print(f"Not clean: {', '.join(failed)}", flush=True)
        print(f"== {' '.join([*TESTS, *words])}", flush=True)
        _show(tests.stdout)
    return 0 if tests.returncode == 0 and not failed else 1


def passes(checkout: Checkout, check: tuple[str, ...]) -> bool:
    """Run one check in the environment with its output shown, and tell whether it is clean."""
    print(f"== {' '.join(check)}", flush=True)
    return _started(checkout, check).wait() == 0


def _started(
    checkout: Checkout, check: tuple[str, ...], stdout: int | None = None
) -> "subprocess.Popen[bytes]":
    program, *words = check
    return subprocess.Popen(
        [str(checkout.program(program)), *words],
        cwd=checkout.root,
        # Compiled modules are kept: the tests start a few hundred programs.
        env={**clean(os.environ), "PYTHONDONTWRITEBYTECODE": ""},
        stdout=stdout,
    )


def _show(out: IO[bytes] | None) -> None:
    """Pass on what a process wrote so far, and then each thing as it comes."""
    if out is not None:
        for part in iter(partial(os.read, out.fileno(), 4096), b""):
            sys.stdout.buffer.write(part)
            sys.stdout.buffer.flush()
