"""A program as a process of its own, beside a test, a proof or a benchmark."""

import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

LEFT_OUT = ("YARDBELL_", "PYTHONDONTWRITEBYTECODE")
"""A developer's own settings; where the program is installed it is compiled once, as the libraries
are, and not at every start."""

NO_FILE = {"YARDBELL_ENV_FILE": os.devnull}
"""Nor a developer's own file of settings."""


def start_beside(
    words: Sequence[str],
    settings: Mapping[str, str],
    folder: Path = ROOT,
    log: Path | None = None,
) -> "subprocess.Popen[bytes]":
    """Start ``python WORDS`` with this checkout's code and, of Yardbell's settings, these alone.

    Args:
        words: what Python is to run.
        settings: variables of the environment, by their full names.
        folder: where it runs.
        log: the file to which all that it writes is added; without one its complaints are shown.

    """
    kept = {name: value for name, value in os.environ.items() if not name.startswith(LEFT_OUT)}
    code = {"PYTHONPATH": str(ROOT), "PYTHONUNBUFFERED": "1", **NO_FILE}
    command, environment = [sys.executable, *words], {**kept, **code, **settings}
    if log is None:
        return subprocess.Popen(command, cwd=folder, env=environment, stdout=subprocess.DEVNULL)
    with log.open("ab") as out:
        return subprocess.Popen(command, cwd=folder, env=environment, stdout=out, stderr=out)
