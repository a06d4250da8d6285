"""Who starts the program after an update reads which migrations were run, a line each."""

import logging

import pytest
from sqlalchemy import Engine, make_url

from bot.program_log import private_formatter
from scheduling.records.engine import open_engine
from scheduling.records.migrate import MIGRATIONS, migrate


def test_each_migration_is_one_line_with_its_name(
    blank: str, caplog: pytest.LogCaptureFixture
) -> None:
    engine: Engine = open_engine(make_url(blank))
    with caplog.at_level(logging.INFO, "scheduling"):
        migrate(engine)
        migrate(engine)
    engine.dispose()
    lines = [
        private_formatter().format(record).partition("from=")[2]
        for record in caplog.records
        if record.name.startswith("scheduling")
    ]
    names = sorted(file.stem for file in (MIGRATIONS / "versions").glob("[0-9]*.py"))

    assert len(names) > 3
    assert lines == [
        f'scheduling.records.migrate event="a migration was run" schema={name}' for name in names
    ]
