"""A command that copies the database knows every table, in a process that did nothing else."""

import subprocess
import sys
from pathlib import Path

from sqlalchemy import create_engine, inspect

_NAMES = """
import bot.all_tables
from scheduling.records.tables import Base
print(*sorted(Base.metadata.tables))
"""


def test_who_imports_every_table_knows_all_that_the_migrations_make(made_once: Path) -> None:
    engine = create_engine(f"sqlite:///{made_once}")
    made = set(inspect(engine).get_table_names()) - {"alembic_version"}
    engine.dispose()
    command = [sys.executable, "-c", _NAMES]
    known = subprocess.run(command, capture_output=True, text=True, check=True).stdout.split()
    assert set(known) == made
