"""A backup whose rows can all be read but whose file is not whole is refused before it is taken."""

import sqlite3
from contextlib import closing
from pathlib import Path

from sqlalchemy import select

from scheduling.records.engine import open_engine, reading
from scheduling.records.tables import PersonRow
from tests.bot.command.conftest import Yardbell

AN_INDEX = (
    "SELECT * FROM sqlite_master WHERE type = 'index' AND sql IS NOT NULL AND tbl_name = 'person'"
)
ONE_MORE_PERSON = (
    "CREATE TEMP TABLE copied AS SELECT * FROM person LIMIT 1",
    "UPDATE copied SET id = 99, name_folded = 'milo'",
    "INSERT INTO person SELECT * FROM copied",
)


def leave_a_row_out_of_an_index(file: Path) -> None:
    """Add a person while an index is out of sight, so that it does not know of them."""
    with closing(sqlite3.connect(file)) as backup, backup:
        index = backup.execute(AN_INDEX).fetchone()
        backup.execute("PRAGMA writable_schema = ON")
        backup.execute("DELETE FROM sqlite_master WHERE name = ?", (index[1],))
    with closing(sqlite3.connect(file)) as backup, backup:
        for statement in ONE_MORE_PERSON:
            backup.execute(statement)
        backup.execute("PRAGMA writable_schema = ON")
        backup.execute("INSERT INTO sqlite_master VALUES (?, ?, ?, ?, ?)", index)


def test_an_index_that_misses_a_row_is_damage(river: Yardbell, blank: str) -> None:
    file = river.folder / "backup"
    river.good("backup", str(file))
    leave_a_row_out_of_an_index(file)
    complaint = river("--database", blank, "restore", str(file)).complaint

    assert "the backup is damaged: the file: " in complaint
    assert complaint.endswith("; nothing restored")
    engine = open_engine(blank)
    with reading(engine) as session:
        assert session.scalars(select(PersonRow)).all() == []
    engine.dispose()


def test_the_same_backup_unharmed_is_restored(river: Yardbell, blank: str) -> None:
    file = river.folder / "backup"
    river.good("backup", str(file))

    assert "restored: 1 crews" in river.good("--database", blank, "restore", str(file))


def test_a_table_that_nobody_knows_is_not_lost_in_silence(river: Yardbell, blank: str) -> None:
    file = river.folder / "backup"
    river.good("backup", str(file))
    with closing(sqlite3.connect(file)) as backup, backup:
        backup.execute("CREATE TABLE hive_weights (kg REAL)")
    complaint = river("--database", blank, "restore", str(file)).complaint

    assert "unknown tables: hive_weights; nothing restored" in complaint
