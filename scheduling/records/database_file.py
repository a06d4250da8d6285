"""The file of a SQLite database, which must stay the one that was opened first.

A file that was deleted or replaced can be written to for as long as it is open; all of that is
lost with the last process that has it open.
"""

import sqlite3
from pathlib import Path
from typing import Any

from sqlalchemy.exc import OperationalError

GONE = "the database's file was deleted or replaced; put it back, or stop the program and look"


class DatabaseFile:
    """Knows a file again by its device and number; one that is not there yet is known later.

    Args:
        path: where it lies.
    """

    def __init__(self, path: str) -> None:
        self._path = path
        self._opened: tuple[int, int] | None = None

    def refuse_other(self, *_of_the_event: Any) -> None:
        """Connect to no other file, and begin no transaction on one that is not at its place.

        Raises:
            sqlalchemy.exc.OperationalError: it was deleted, or another one is in its place.
        """
        found = self._found()
        if self._opened is None:
            self._opened = found
        elif found != self._opened:
            raise OperationalError(None, None, sqlite3.OperationalError(GONE))

    def _found(self) -> tuple[int, int] | None:
        try:
            file = Path(self._path).stat()
        except OSError:
            return None
        return file.st_dev, file.st_ino
