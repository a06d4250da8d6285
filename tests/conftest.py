"""What all tests share: databases of their own on both engines, and examples that stay the same.

The examples that hypothesis tries are the same in every run, so that a change is judged by what
it changed. ``--hypothesis-profile=searching`` tries new ones.
"""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from sqlalchemy import Engine

from bot.monitoring import take_unwritten
from deploy.standins.databases import WITH_TABLES, copied_file, make_tables, on_server
from deploy.standins.postgresql import Server
from deploy.standins.program_beside import NO_FILE
from scheduling.records.engine import open_engine

# What a developer has set for bees of their own reaches no test.
os.environ.update(NO_FILE)

settings.register_profile("steady", derandomize=True, deadline=None)
settings.register_profile("searching", deadline=None, max_examples=1000)
settings.load_profile("steady")

on_both = pytest.fixture(params=["sqlite", "postgresql"])


@pytest.fixture(autouse=True)
def no_heartbeats_of_other_tests() -> None:
    """Drop what an earlier test of this process left to be written, as if it were another's."""
    take_unwritten()


@pytest.fixture(scope="session")
def postgresql() -> Iterator[Server]:
    """A server for all tests, with a database that has every table."""
    server = Server()
    make_tables(server.make(WITH_TABLES).render_as_string())
    yield server
    server.stop()


@pytest.fixture(scope="session")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A SQLite file with every table and nothing in them."""
    file = tmp_path_factory.mktemp("made_once") / "empty.sqlite"
    make_tables(f"sqlite:///{file}")
    return file


@on_both
def database(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The URL of a database of the test's own, of each kind in turn."""
    if request.param == "sqlite":
        yield copied_file(request.getfixturevalue("made_once"), tmp_path)
    else:
        with on_server(request.getfixturevalue("postgresql"), WITH_TABLES) as url:
            yield url


@on_both
def blank(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    """The URL of a database without tables, of each kind in turn."""
    if request.param == "sqlite":
        yield f"sqlite:///{tmp_path}/new folder 100%.sqlite"
    else:
        with on_server(request.getfixturevalue("postgresql"), "template0") as url:
            yield url


@pytest.fixture
def engine(database: str) -> Iterator[Engine]:
    """The engine of that database."""
    engine = open_engine(database)
    yield engine
    engine.dispose()


@pytest.fixture
def postgresql_engine(postgresql: Server) -> Iterator[Engine]:
    """The engine of a database of the test's own on the server, for what only a server can do."""
    with on_server(postgresql, WITH_TABLES) as url:
        engine = open_engine(url)
        yield engine
        engine.dispose()
