"""What a newcomer reads first."""

import resource
import subprocess
import sys
from importlib import metadata
from pathlib import Path

import pytest

from bot.command.group import COMMANDS
from bot.version import version
from tests.bot.command.conftest import Yardbell

REPOSITORY = Path(__file__).parents[3]


@pytest.mark.parametrize("word", ["--help", "-h"])
def test_help_names_every_command_with_a_whole_sentence(yardbell: Yardbell, word: str) -> None:
    shown = yardbell.good(word)
    listed = shown.partition("Commands:\n")[2].splitlines()
    assert [line.split()[0] for line in listed] == list(COMMANDS)
    assert all(line.endswith(".") and not line.endswith("...") for line in listed)


def test_no_words_at_all_show_the_help(yardbell: Yardbell) -> None:
    assert yardbell.good() == yardbell.good("--help")


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_its_help(yardbell: Yardbell, command: str) -> None:
    assert f"Usage: yardbell {command}" in yardbell.good(command, "--help")


def test_an_unknown_command_is_named(yardbell: Yardbell) -> None:
    assert "'bogus'" in yardbell("bogus").complaint


def test_the_help_is_told_without_loading_the_program() -> None:
    asked = (
        "import sys, bot.command\n"
        "try: bot.command.main(['--help'])\n"
        "except SystemExit: pass\n"
        "print(*sys.modules, file=sys.stderr)"
    )
    done = subprocess.run(
        [sys.executable, "-c", asked], capture_output=True, text=True, check=True, cwd=REPOSITORY
    )
    loaded = set(done.stderr.split())
    assert "Commands:" in done.stdout
    assert "click" in loaded
    assert not loaded & {"sqlalchemy", "telegram", "pydantic", "httpx", "apscheduler", "asyncio"}
    assert not {name for name in loaded if name.startswith("scheduling")}


def test_the_help_takes_less_than_half_a_second_of_the_processor() -> None:
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    command = [sys.executable, "-m", "bot.command", "--help"]
    subprocess.run(command, capture_output=True, check=True, cwd=REPOSITORY)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    assert after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime < 0.5


def test_the_version_is_that_of_the_project(yardbell: Yardbell) -> None:
    assert yardbell.good("--version") == f"yardbell {version()}\n"
    assert version() == metadata.version("yardbell")
