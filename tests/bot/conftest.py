"""A fresh database on a real file; its tables are made once and copied."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import Engine

from scheduling.records.engine import open_engine
from scheduling.records.migrate import migrate


@pytest.fixture(scope="session")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A database file with every table and nothing in them."""
    file = tmp_path_factory.mktemp("made_once") / "empty.sqlite"
    engine = open_engine(f"sqlite:///{file}")
    migrate(engine)
    engine.dispose()
    return file


@pytest.fixture
def database(tmp_path: Path, made_once: Path) -> str:
    """The URL of a database of the test's own."""
    file = tmp_path / "yardbell.sqlite"
    shutil.copy(made_once, file)
    return f"sqlite:///{file}"


@pytest.fixture
def engine(database: str) -> Iterator[Engine]:
    """The engine of that database."""
    engine = open_engine(database)
    yield engine
    engine.dispose()
