"""Runs every check that a change must pass, and stops at none of them."""

import os
import subprocess

from deploy.checkout import Checkout
from deploy.surroundings import clean_environment

TESTS_AT_ONCE = (os.cpu_count() or 1) + 1
"""One more than there are cores, because many tests wait for a carrier's pace or a server."""

# The tests come last, so that their own summary is the last line.
CHECKS = (
    ("ruff", "check", "--quiet", "."),
    ("ruff", "format", "--check", "--quiet", "."),
    ("mypy",),
    ("lint-imports",),
    ("pytest", "--numprocesses", str(TESTS_AT_ONCE)),
)


def run_checks(checkout: Checkout, words: list[str]) -> int:
    """Run all checks, handing ``words`` to pytest, and return 0 only if all are clean."""
    *before, tests = CHECKS
    failed = [" ".join(check) for check in before if not passes(checkout, check)]
    if failed:
        print(f"Not clean: {', '.join(failed)}", flush=True)
    tests_pass = passes(checkout, (*tests, *words))
    return 0 if tests_pass and not failed else 1


def passes(checkout: Checkout, check: tuple[str, ...]) -> bool:
    """Run one check in the environment with its output shown, and tell whether it is clean."""
    print(f"== {' '.join(check)}", flush=True)
    program, *words = check
    done = subprocess.run(
        [str(checkout.program(program)), *words],
        cwd=checkout.root,
        env=_environment(),
        check=False,
    )
    return done.returncode == 0


def _environment() -> dict[str, str]:
    """Let compiled modules be kept: the tests start a few hundred programs."""
    clean = clean_environment(os.environ)
    clean.pop("PYTHONDONTWRITEBYTECODE", None)
    return clean
