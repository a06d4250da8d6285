"""Phones on a fresh database; the tables are made once and copied."""

import shutil
from pathlib import Path

import pytest

from scheduling.records.engine import open_engine
from scheduling.records.migrate import migrate
from tests.bot.desk.phones import Phones


@pytest.fixture(scope="session")
def empty_database(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("desk") / "yardbell.sqlite"
    engine = open_engine(f"sqlite:///{file}")
    migrate(engine)
    engine.dispose()
    return file


@pytest.fixture
def phones(tmp_path: Path, empty_database: Path) -> Phones:
    shutil.copy(empty_database, tmp_path / empty_database.name)
    return Phones(tmp_path)
