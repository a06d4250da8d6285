"""What a newcomer reads first."""

import pytest

from bot.command.group import MODULES
from tests.bot.command.conftest import Yardbell


@pytest.mark.parametrize("word", ["--help", "-h"])
def test_help_names_every_command_with_a_whole_sentence(yardbell: Yardbell, word: str) -> None:
    shown = yardbell.good(word)
    listed = shown.partition("Commands:\n")[2].splitlines()
    assert [line.split()[0] for line in listed] == list(MODULES)
    assert all(line.endswith(".") and not line.endswith("...") for line in listed)


def test_no_words_at_all_show_the_help(yardbell: Yardbell) -> None:
    assert yardbell.good() == yardbell.good("--help")


@pytest.mark.parametrize("command", MODULES)
def test_every_command_has_its_help(yardbell: Yardbell, command: str) -> None:
    assert f"Usage: yardbell {command}" in yardbell.good(command, "--help")


def test_an_unknown_command_is_named(yardbell: Yardbell) -> None:
    assert "'bogus'" in yardbell("bogus").complaint
