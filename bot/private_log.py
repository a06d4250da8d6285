"""The log of a running program: what went wrong and where, never what people wrote."""

import logging
import traceback
from types import TracebackType

_FORM = "%(asctime)s %(levelname)s %(name)s: %(message)s"

_CHATTY = ("apscheduler", "httpx", "httpcore")
"""Libraries that tell of every tick and every fetch, some with addresses that hold the token."""


class PrivateFormatter(logging.Formatter):
    """Shows an error by its type and the lines it came through.

    The words of an error are left out: they repeat the value that was wrong, which is as a rule
    what somebody wrote.
    """

    def formatException(  # noqa: N802 - the standard library's name
        self,
        ei: tuple[type[BaseException], BaseException, TracebackType | None]
        | tuple[None, None, None],
    ) -> str:
        """Give the errors from the first cause on, without their words."""
        return "\n".join(_lines(ei[1])) if ei[1] is not None else ""


def _lines(error: BaseException) -> list[str]:
    before = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    lines = [] if before is None else [*_lines(before), "which led to"]
    frames = traceback.extract_tb(error.__traceback__)
    lines += [f"  {frame.filename}:{frame.lineno} {frame.name}" for frame in frames]
    return [*lines, type(error).__name__]


def log_privately(level: str) -> None:
    """Log to stderr from a level on ("INFO") in this form."""
    handler = logging.StreamHandler()
    handler.setFormatter(PrivateFormatter(_FORM))
    logging.basicConfig(level=level, handlers=[handler])
    for name in _CHATTY:
        logging.getLogger(name).setLevel(logging.WARNING)
