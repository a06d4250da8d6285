"""A backup is looked at before it is taken: what cannot be read or be is named, line by line."""

from pathlib import Path
from sqlite3 import connect

import pytest
from sqlalchemy import Engine, create_engine, inspect

from tests.bot.command.conftest import Yardbell


@pytest.fixture
def backup(river: Yardbell) -> Path:
    """A backup of Ada's crew."""
    file = river.folder / "backup"
    river.good("backup", str(file))
    return file


def tampered(backup: Path, *changes: str) -> None:
    """Change a backup with nothing in the way, as a disk or a hand may do."""
    database = connect(backup)
    database.execute("PRAGMA ignore_check_constraints = ON")
    for (name,) in database.execute(
        "SELECT name FROM sqlite_master WHERE type = 'trigger'"
    ).fetchall():
        database.execute(f"DROP TRIGGER {name}")
    for change in changes:
        database.execute(change)
    database.commit()
    database.close()


def is_empty(blank: str) -> bool:
    engine: Engine = create_engine(blank)
    try:
        with engine.connect() as connection:
            names = inspect(connection).get_table_names()
            return (
                "crew" not in names
                or not connection.exec_driver_sql("SELECT count(*) FROM crew").scalar()
            )
    finally:
        engine.dispose()


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ("UPDATE person SET morning = 'abc'", "person 1: morning is 'abc', which cannot be read"),
        ("UPDATE person SET next_morning_at = 'soon'", "next_morning_at is 'soon'"),
        ("UPDATE person SET zone = 'No/Where'", "person 1: 'No/Where' is not a time zone"),
        ("UPDATE person SET feeder_litres = 'much'", "feeder_litres is 'much'"),
        ("UPDATE person SET cautioned_on = 20270501", "cautioned_on is 20270501"),
        ("UPDATE yard SET zone = ''", "yard 1: '' is not a time zone"),
        ("UPDATE unit SET box = 'one' WHERE id = 1", "unit 1: box is 'one', which is no int"),
        ("UPDATE entry SET value = '{\"a\":' WHERE seq = 1", "entry 1: value is"),
        ("UPDATE entry SET value = '{\"a\":1}' WHERE seq = 1", "entry number 1 cannot be read"),
        ("UPDATE entry SET kind = 'nonsense' WHERE seq = 2", "entry number 2 cannot be read"),
        ("UPDATE entry SET day = '2027-13-01' WHERE seq = 1", "entry 1: day is '2027-13-01'"),
        ("UPDATE entry SET day = '9999-12-31' WHERE seq = 1", "on must be from 2000-01-01"),
        ("UPDATE entry SET recorded_at = '0001-01-01 00:00:00.000000'", "recorded_at must be"),
        ("UPDATE outbox SET buttons = 'none'", "buttons is 'none', which cannot be read"),
        ("UPDATE outbox SET state = x'ff'", "state is b'\\xff', which is no str"),
    ],
)
def test_a_value_that_cannot_be_is_named_and_nothing_restored(
    river: Yardbell, backup: Path, blank: str, change: str, named: str
) -> None:
    tampered(backup, change)
    said = river("--database", blank, "restore", str(backup))

    assert said.code == 2
    assert said.out == ""
    assert named in said.err
    *_, last = said.err.splitlines()
    assert last.endswith("; nothing restored")
    assert "Traceback" not in said.err
    assert is_empty(blank)


def test_each_fault_has_a_line(river: Yardbell, backup: Path, blank: str) -> None:
    tampered(
        backup,
        "UPDATE person SET morning = 'abc', cautioned_on = 'xyz'",
        "UPDATE unit SET box = 'one' WHERE id IN (1, 2)",
    )
    lines = river("--database", blank, "restore", str(backup)).err.splitlines()

    assert len(lines) == 5
    assert lines[-1] == f"yardbell: {backup}: the backup has 4 faults; nothing restored"


def test_a_fault_that_was_taken_back_is_none(river: Yardbell, backup: Path, blank: str) -> None:
    file = river.folder / "strike.csv"
    tampered(backup, "UPDATE entry SET day = '9999-12-31' WHERE seq = 1")
    uid = connect(backup).execute("SELECT uid FROM entry WHERE seq = 1").fetchone()[0]
    file.write_text(
        f"on,yard,unit,kind,value,person,note\n2027-05-12,River,1a,strike,{uid},Ada,\n",
        encoding="utf-8",
    )
    assert "on must be" in river("--database", blank, "restore", str(backup)).err

    # As the operator's guide tells: the backup itself is a database.
    river.good("--database", f"sqlite:///{backup}", "import", str(file))
    assert "restored: 1 crews" in river.good("--database", blank, "restore", str(backup))


def test_a_good_backup_is_taken(river: Yardbell, backup: Path, blank: str) -> None:
    assert "restored: 1 crews" in river.good("--database", blank, "restore", str(backup))
