"""The program works its calendars out on one thread, so that no other spins beside it."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

ASK = """
import atexit, os
def tell():
    import numpy
    print(len(os.listdir("/proc/self/task")), os.environ["OPENBLAS_NUM_THREADS"])
atexit.register(tell)
from bot.command import main
main(["--help"])
"""


def threads_of_the_command(surroundings: dict[str, str]) -> list[str]:
    """Tell the threads of the ``yardbell`` command once arrays are loaded, and how many it set."""
    told = subprocess.run(
        [sys.executable, "-c", ASK],
        cwd=ROOT,
        env=surroundings,
        capture_output=True,
        text=True,
        check=True,
    )
    return told.stdout.splitlines()[-1].split()


def unset() -> dict[str, str]:
    return {name: value for name, value in os.environ.items() if "NUM_THREADS" not in name}


@pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="threads are counted in /proc")
def test_loading_arrays_starts_no_thread() -> None:
    assert threads_of_the_command(unset()) == ["1", "1"]


def test_whoever_sets_another_number_has_it() -> None:
    assert threads_of_the_command(unset() | {"OPENBLAS_NUM_THREADS": "2"})[1] == "2"
