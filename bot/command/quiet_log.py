"""Warnings at the terminal: a line each, since a keeper has no use for a traceback."""

import logging
import sys


class OneLine(logging.Formatter):
    """A record and its error in one line."""

    def format(self, record: logging.LogRecord) -> str:
        """Give the message and, of an error, its kind and words."""
        said = f"yardbell: {record.getMessage()}"
        error = record.exc_info[1] if record.exc_info else None
        return said if error is None else f"{said}: {type(error).__name__}: {_first(error)}"


def log_in_lines() -> None:
    """Write warnings to stderr in this form."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(OneLine())
    logging.basicConfig(level=logging.WARNING, handlers=[handler])
    # Whoever reads the terminal sees what is sent; one who closed it does not want to know.
    logging.getLogger("bot.post").setLevel(logging.ERROR)


def _first(error: BaseException) -> str:
    return str(error).strip().partition("\n")[0]
