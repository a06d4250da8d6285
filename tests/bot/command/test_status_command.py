"""The status command, before anybody began and beside a database in use."""

import json

from bot.version import version
from tests.bot.command.conftest import Yardbell


def test_before_anybody_began_there_is_nothing_to_show(yardbell: Yardbell) -> None:
    assert f"nobody is in this database yet: sqlite:///{yardbell.database};" in (
        yardbell("status").complaint
    )


def test_a_database_without_a_running_program(river: Yardbell) -> None:
    shown = river.good("status").splitlines()

    assert shown[0] == "running    no, last tick never"
    assert shown[1].startswith(f"database   sqlite:///{river.database}, schema 00")
    assert shown[2] == f"version    {version()}"
    assert any(line.startswith("  next     Ada ") for line in shown)


def test_json_is_one_value(river: Yardbell) -> None:
    found = json.loads(river.good("status", "--json"))

    assert found["version"] == version()
    assert (found["database"], found["address"]) == ("sqlite", f"sqlite:///{river.database}")
    assert (found["running"], found["people"], found["outbox"]["sent"]) == (False, 1, 4)
