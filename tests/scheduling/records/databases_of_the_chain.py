"""Databases as the chain of migrations before the baseline left them, with rows in every table.

``fixtures/databases`` holds one of each kind, written down by SQLite's own dump and by
PostgreSQL's ``pg_dump --inserts`` when the chain still stood.
"""

import sqlite3
from pathlib import Path

import psycopg
from sqlalchemy import Engine

AT_ITS_END = "0013_texts_known"

_FOLDER = Path(__file__).parents[3] / "fixtures" / "databases"


def load_end_of_chain(engine: Engine) -> None:
    """Fill an empty database with one from the end of the chain."""
    dump = (_FOLDER / f"{AT_ITS_END}.{engine.dialect.name}.sql").read_text(encoding="utf-8")
    with engine.connect() as connection:
        driver = connection.connection.driver_connection
        if isinstance(driver, sqlite3.Connection):
            # Its tables come in the order of their names, children before their parents.
            driver.executescript(f"PRAGMA foreign_keys = OFF; {dump}")
        else:
            assert isinstance(driver, psycopg.Connection)
            driver.execute(dump.encode())
            driver.commit()
    # The dump's settings go with its connection.
    engine.dispose()
