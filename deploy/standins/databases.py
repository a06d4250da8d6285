"""Fresh databases of both kinds; their tables are made once and copied."""

import shutil
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from deploy.standins.postgresql import Server
from scheduling.records.engine import open_engine
from scheduling.records.migrate import migrate

KINDS = ("SQLite", "PostgreSQL")
"""The databases that the program works with."""

WITH_TABLES = "with_tables"
"""The database on the server that others are copied from."""


_FILLED = "filled"


def make_tables(url: str) -> None:
    """Make every table in a database, and let go of it."""
    engine = open_engine(url)
    migrate(engine)
    engine.dispose()


def copied_file(file: Path, folder: Path) -> str:
    """The URL of a copy of a SQLite file."""
    return f"sqlite:///{shutil.copy(file, folder / 'yardbell.sqlite')}"


@contextmanager
def on_server(server: Server, template: str) -> Iterator[str]:
    """The URL of a new database on a server, which is taken away at the end."""
    url = server.fresh(template)
    yield url.render_as_string()
    server.drop(url)


Fresh = Callable[[], AbstractContextManager[str]]
"""Gives the URL of one more copy of a database, which is taken away at the end."""


@contextmanager
def copies_of(kind: str, fill: Callable[[str], None]) -> Iterator[Fresh]:
    """Fill a database of one of ``KINDS`` once, and give copies of it."""
    if kind == "SQLite":
        with TemporaryDirectory() as folder:
            file = Path(folder) / "filled.sqlite"
            fill(f"sqlite:///{file}")
            yield lambda: _copied(file)
        return
    server = Server()
    try:
        filled = server.make(_FILLED)
        fill(filled.render_as_string())
        yield lambda: on_server(server, _FILLED)
    finally:
        server.stop()


@contextmanager
def _copied(file: Path) -> Iterator[str]:
    with TemporaryDirectory() as folder:
        yield copied_file(file, Path(folder))


@contextmanager
def new_database(kind: str) -> Iterator[str]:
    """The URL of a database without tables, of one of ``KINDS``; PostgreSQL with its own server."""
    if kind == "SQLite":
        with TemporaryDirectory() as folder:
            yield f"sqlite:///{Path(folder) / 'bees.sqlite'}"
        return
    server = Server()
    try:
        yield server.fresh().render_as_string()
    finally:
        server.stop()
