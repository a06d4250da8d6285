"""One baseline makes what the chain before it made, and takes over where that chain ended."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import Engine, MetaData, select, text

from deploy.standins.databases import on_server
from scheduling.records.engine import open_engine
from scheduling.records.migrate import (
    MIGRATIONS,
    OlderDatabaseError,
    current_version,
    migrate,
    newest_version,
)
from tests.scheduling.records.databases_of_the_chain import AT_ITS_END, load_end_of_chain
from tests.scheduling.records.schema import schema_of

Two = tuple[Engine, Engine]


@pytest.fixture(params=["sqlite", "postgresql"])
def two(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Two]:
    """A database from the end of the chain, and an empty one of the same kind."""
    if request.param == "sqlite":
        yield from _loaded(*(f"sqlite:///{tmp_path}/{name}" for name in ("old", "new")))
        return
    server = request.getfixturevalue("postgresql")
    with on_server(server, "template0") as old, on_server(server, "template0") as new:
        yield from _loaded(old, new)


def _loaded(*urls: str) -> Iterator[Two]:
    old, new = (open_engine(url) for url in urls)
    load_end_of_chain(old)
    yield old, new
    for engine in (old, new):
        engine.dispose()


def make_baseline(engine: Engine) -> None:
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS))
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, AT_ITS_END)


def rows(engine: Engine, tables: MetaData) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table, with the columns that the tables had then."""
    with engine.connect() as connection:
        return {
            name: sorted(map(tuple, connection.execute(select(table))), key=repr)
            for name, table in tables.tables.items()
            if name != "alembic_version"
        }


def test_the_baseline_makes_the_tables_and_guards_of_the_chain(two: Two) -> None:
    old, new = two
    make_baseline(new)
    assert schema_of(new) == schema_of(old)


def test_the_comparison_would_see_a_guard_that_is_missing(two: Two) -> None:
    old, new = two
    make_baseline(new)
    of_table = " ON outbox" if new.dialect.name == "postgresql" else ""
    with new.begin() as connection:
        connection.execute(text(f"DROP TRIGGER outbox_never_backwards{of_table}"))
    assert schema_of(new) != schema_of(old)


def test_a_database_from_the_end_of_the_chain_becomes_like_a_new_one_and_keeps_its_rows(
    two: Two,
) -> None:
    old, new = two
    then = MetaData()
    then.reflect(old)
    before = rows(old, then)
    assert all(before.values()), "each table has a row in it"

    migrate(old)
    migrate(new)

    assert current_version(old) == newest_version()
    assert schema_of(old) == schema_of(new)
    assert rows(old, then) == before


@pytest.mark.parametrize("version", ["0012_own_codes", "0007_delivery", "0001_crews_and_log"])
def test_an_older_database_is_left_alone_and_told_what_to_do(two: Two, version: str) -> None:
    old, _ = two
    with old.begin() as connection:
        earlier = text("UPDATE alembic_version SET version_num = :version")
        connection.execute(earlier, {"version": version})
    before = schema_of(old)

    with pytest.raises(OlderDatabaseError, match=r"start Yardbell 0\.1\.0 on it once") as said:
        migrate(old)

    assert "\n" not in str(said.value)
    assert (current_version(old), schema_of(old)) == (version, before)
