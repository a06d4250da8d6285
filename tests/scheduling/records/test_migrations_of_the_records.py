"""The migrations make exactly the tables that the code maps, and harm nothing on the way."""

from pathlib import Path
from subprocess import Popen, run
from sys import executable

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Engine, text
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import open_engine, reading, writing
from scheduling.records.migrate import (
    MIGRATIONS,
    BrokenReferencesError,
    NewerDatabaseError,
    current_version,
    migrate,
    newest_version,
)
from scheduling.records.tables import Base

ROOT = Path(__file__).parents[3]


def test_the_migrated_tables_are_the_mapped_tables(engine: Engine) -> None:
    def ours(thing: object, name: str | None, kind: str, *_: object) -> bool:
        return kind != "table" or name in Base.metadata.tables

    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"include_object": ours})
        assert compare_metadata(context, Base.metadata) == []


def test_the_comparison_would_see_a_missing_index(engine: Engine) -> None:
    with engine.begin() as connection:
        connection.execute(text("DROP INDEX ix_person_next_morning_at"))
    with engine.connect() as connection:
        found = compare_metadata(MigrationContext.configure(connection), Base.metadata)
    assert "add_index" in {difference[0] for difference in found}


def test_the_newest_version_is_the_only_head_of_the_chain() -> None:
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS))
    script = ScriptDirectory.from_config(config)
    assert script.get_heads() == [newest_version()]
    assert all(len(revision.revision) <= 32 for revision in script.walk_revisions())


def test_a_new_database_has_no_version_until_it_is_migrated(blank: str) -> None:
    engine = open_engine(blank)
    assert current_version(engine) is None
    migrate(engine)
    assert current_version(engine) == newest_version()
    engine.dispose()


def test_migrating_again_changes_nothing_and_needs_no_alembic(engine: Engine) -> None:
    program = (
        "import sys\n"
        "from scheduling.records.engine import open_engine\n"
        "from scheduling.records.migrate import migrate\n"
        "engine = open_engine(sys.argv[1])\n"
        "migrate(engine)\n"
        "engine.dispose()\n"
        "sys.exit('alembic' in sys.modules)\n"
    )
    assert run([executable, "-c", program, str(engine.url)], cwd=ROOT, check=False).returncode == 0


def test_two_processes_may_start_on_one_new_database(blank: str) -> None:
    program = (
        "import sys\n"
        "from scheduling.records.engine import open_engine\n"
        "from scheduling.records.migrate import migrate\n"
        "engine = open_engine(sys.argv[1])\n"
        "migrate(engine)\n"
        "engine.dispose()\n"
    )
    both = [Popen([executable, "-c", program, blank], cwd=ROOT) for _ in range(2)]
    assert [process.wait(timeout=60) for process in both] == [0, 0]


def test_a_database_of_a_later_release_is_left_alone(engine: Engine) -> None:
    with writing(engine) as session:
        session.execute(text("UPDATE alembic_version SET version_num = '9999_from_the_future'"))
    with pytest.raises(NewerDatabaseError, match="9999_from_the_future"):
        migrate(engine)


def test_foreign_keys_are_on_again_after_migrating(tmp_path: Path) -> None:
    engine = open_engine(f"sqlite:///{tmp_path}/new.sqlite")
    migrate(engine)
    with reading(engine) as session:
        assert session.scalar(text("PRAGMA foreign_keys")) == 1
    engine.dispose()


def test_a_migration_that_would_leave_a_row_without_its_parent_is_undone(tmp_path: Path) -> None:
    engine = open_engine(f"sqlite:///{tmp_path}/old.sqlite")
    with engine.connect() as connection:
        connection.connection.cursor().execute("PRAGMA foreign_keys = OFF")
        with connection.begin():
            connection.execute(text("CREATE TABLE box (id INTEGER PRIMARY KEY)"))
            connection.execute(text("CREATE TABLE frame (box_id INTEGER REFERENCES box (id))"))
            connection.execute(text("INSERT INTO frame VALUES (4)"))
    with pytest.raises(BrokenReferencesError, match="frame"):
        migrate(engine)
    assert current_version(engine) is None
    engine.dispose()


def test_the_database_itself_keeps_crews_apart(session: Session, records: CrewRecords) -> None:
    """A yard of one crew cannot be the yard of another crew's entry, whoever writes the row."""
    session.execute(text("INSERT INTO crew (id, name) VALUES (99, 'Strangers')"))
    row = text(
        "INSERT INTO entry"
        " (uid, crew_id, yard_id, kind, day, recorded_at, person_id, channel, note)"
        " VALUES ('x', 99, 1, 'eggs', '2027-05-12', '2027-05-12 15:30:00', 1, 'console', '')"
    )
    with pytest.raises(IntegrityError, match=r"(?i)foreign key"):
        session.execute(row)
