"""The log says where it went wrong, and repeats nobody's words."""

import logging
import sys

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import SQLAlchemyError

from bot.private_log import PrivateFormatter
from scheduling.records.engine import writing

SECRET = "4b eggs, and my back hurts"  # noqa: S105 - a text somebody wrote


def logged(error: BaseException) -> str:
    """The line of the log that an error makes."""
    try:
        raise error
    except BaseException:  # noqa: BLE001 - any kind is logged
        record = logging.LogRecord("bot", 40, __file__, 1, "failed", None, sys.exc_info())
    return PrivateFormatter("%(message)s").format(record)


def test_an_error_shows_its_type_and_place_but_not_its_words() -> None:
    line = logged(ValueError(f"cannot read {SECRET!r}"))

    assert line.startswith("failed\n")
    assert line.endswith("ValueError")
    assert "test_private_log.py" in line
    assert SECRET not in line


def test_what_caused_it_is_shown_first_and_as_silently() -> None:
    error = RuntimeError(SECRET)
    error.__cause__ = KeyError(SECRET)
    line = logged(error)

    assert line.index("KeyError") < line.index("RuntimeError")
    assert SECRET not in line


def test_the_database_repeats_no_words_in_its_errors(engine: Engine) -> None:
    with pytest.raises(SQLAlchemyError) as caught, writing(engine) as session:
        session.execute(text("INSERT INTO nowhere VALUES (:text)"), {"text": SECRET})

    assert SECRET not in str(caught.value)
