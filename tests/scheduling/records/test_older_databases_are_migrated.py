"""A filled database of every earlier version becomes one of this version, and no row is lost."""

from collections.abc import Iterator
from typing import Any

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import Engine, MetaData, RowMapping, insert, select, text

from scheduling.records.engine import open_engine
from scheduling.records.integrity import broken_references
from scheduling.records.migrate import MIGRATIONS, current_version, migrate, newest_version
from tests.scheduling.records.old_rows import OLD_ROWS

VERSIONS = sorted(file.stem for file in (MIGRATIONS / "versions").glob("[0-9]*.py"))

Rows = dict[str, list[RowMapping]]


@pytest.fixture
def old(blank: str) -> Iterator[Engine]:
    engine = open_engine(blank)
    yield engine
    engine.dispose()


def make(engine: Engine, version: str) -> None:
    """Bring a database to an earlier version."""
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS))
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, version)


def tables_of(engine: Engine) -> MetaData:
    """The tables as they are now."""
    tables = MetaData()
    tables.reflect(engine)
    return tables


def fill(engine: Engine) -> None:
    """Put in what such a database may hold, as far as it has room for it."""
    tables = tables_of(engine)
    with engine.begin() as connection:
        for name, rows in OLD_ROWS.items():
            for row in rows if name in tables.tables else ():
                columns = tables.tables[name].c.keys()
                kept: dict[str, Any] = {key: row[key] for key in row if key in columns}
                connection.execute(insert(tables.tables[name]), [kept])


def contents(engine: Engine, tables: MetaData) -> Rows:
    """Every row, with the columns that the tables had then."""
    with engine.connect() as connection:
        return {
            name: list(connection.execute(select(table).order_by(*table.primary_key)).mappings())
            for name, table in tables.tables.items()
            if name != "alembic_version"
        }


@pytest.mark.parametrize("version", VERSIONS)
def test_no_row_is_lost_on_the_way_to_this_version(old: Engine, version: str) -> None:
    make(old, version)
    assert current_version(old) == version
    fill(old)
    then = tables_of(old)
    before = contents(old, then)
    assert all(before.values()), "each table of that version has a row in it"

    migrate(old)

    assert current_version(old) == newest_version()
    assert contents(old, then) == before
    with old.connect() as connection:
        assert broken_references(connection) == {}


def test_the_check_of_references_finds_a_child_without_its_parent(old: Engine) -> None:
    with old.connect() as connection:
        with connection.begin():
            connection.execute(text("CREATE TABLE box (id INTEGER PRIMARY KEY)"))
            connection.execute(text("CREATE TABLE frame (box_id INTEGER, seen TEXT)"))
            connection.execute(text("INSERT INTO frame VALUES (4, 'eggs'), (NULL, 'none')"))
            if old.dialect.name == "postgresql":
                pointing = "FOREIGN KEY (box_id) REFERENCES box NOT VALID"
                connection.execute(text(f"ALTER TABLE frame ADD {pointing}"))
        if old.dialect.name == "sqlite":
            connection.connection.cursor().execute("PRAGMA foreign_keys = OFF")
            with connection.begin():
                connection.execute(text("DROP TABLE frame"))
                connection.execute(text("CREATE TABLE frame (box_id INTEGER REFERENCES box (id))"))
                connection.execute(text("INSERT INTO frame VALUES (4), (NULL)"))
        assert broken_references(connection) == {"frame": 1}
