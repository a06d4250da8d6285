"""A fault of the program itself is one line too, without what anybody wrote."""

import pytest

from bot.command import check_database
from bot.command.group import OWN_FAULT
from tests.bot.command.conftest import Yardbell


def test_a_traceback_is_never_the_answer(river: Yardbell, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError("the keeper's own words")

    monkeypatch.setattr(check_database, "_found", broken)
    said = river("check")

    assert said.code == OWN_FAULT
    assert said.out == ""
    assert said.err.startswith(
        "yardbell: a fault of the program itself, please report it: ZeroDivisionError at "
    )
    assert said.err.count("\n") == 1
    assert "own words" not in said.err
