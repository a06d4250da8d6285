"""The demo, played once for all tests of the documents."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

_PLAY = "from bot.command import main; main(['demo'])"


@pytest.fixture(scope="session")
def demo_conversation(tmp_path_factory: pytest.TempPathFactory) -> str:
    home = tmp_path_factory.mktemp("home")
    done = subprocess.run(
        [sys.executable, "-c", _PLAY],
        cwd=Path(__file__).parents[2],
        env={**os.environ, "XDG_DATA_HOME": str(home), "HOME": str(home)},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        check=True,
    )
    return done.stdout.decode()
