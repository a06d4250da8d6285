"""The log says what happened and where, and repeats nobody's words."""

import json
import logging
import sys

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import SQLAlchemyError

from bot.program_log import MOST_A_MINUTE, LibraryRateLimit, log_of, private_formatter
from scheduling.records.engine import writing

SECRET = "4b eggs, and my back hurts"  # noqa: S105 - a text somebody wrote


def logged(error: BaseException) -> str:
    """The line of the log that an error makes."""
    try:
        raise error
    except BaseException:  # noqa: BLE001 - any kind is logged
        record = logging.LogRecord("bot", 40, __file__, 1, "failed", None, sys.exc_info())
    return private_formatter().format(record)


def test_an_error_shows_its_type_and_place_but_not_its_words() -> None:
    line = logged(ValueError(f"cannot read {SECRET!r}"))

    assert 'event=failed error=ValueError through="' in line
    assert "test_program_log.py" in line
    assert SECRET not in line
    assert "\n" not in line


def test_what_caused_it_is_shown_first_and_as_silently() -> None:
    error = RuntimeError(SECRET)
    error.__cause__ = KeyError(SECRET)
    line = logged(error)

    assert 'error="KeyError > RuntimeError"' in line
    assert SECRET not in line


def told(caplog: pytest.LogCaptureFixture, as_json: bool = False, **facts: object) -> str:
    """The line that an event with these facts makes."""
    with caplog.at_level(logging.INFO):
        log_of("bot.delivery").info("not sent", **facts)
    return private_formatter(as_json).format(caplog.records[-1])


def test_an_event_is_one_line_of_its_name_and_facts(caplog: pytest.LogCaptureFixture) -> None:
    line = told(caplog, channel="telegram", attempt=2)

    assert line.endswith('level=info from=bot.delivery event="not sent" channel=telegram attempt=2')
    assert line.startswith("at=20")


def test_a_machine_reads_the_same_as_json(caplog: pytest.LogCaptureFixture) -> None:
    line = json.loads(told(caplog, as_json=True, channel="telegram", attempt=2))

    assert (line["event"], line["channel"], line["attempt"]) == ("not sent", "telegram", 2)


def test_a_fact_that_nobody_allowed_is_not_told(caplog: pytest.LogCaptureFixture) -> None:
    assert SECRET not in told(caplog, text=SECRET, sender=SECRET)


@pytest.mark.parametrize(
    "secret",
    ["123456:INVENTED-TOKEN-OF-NO-BOT", "+1 423 555 0148", "(423) 555-0148", "-1001234567890"],
)
def test_tokens_and_numbers_in_a_carriers_words_are_withheld(
    caplog: pytest.LogCaptureFixture, secret: str
) -> None:
    line = told(caplog, said=f"chat {secret} is gone")

    assert secret not in line
    assert "(withheld)" in line
    assert "is gone" in line


def test_of_a_librarys_message_only_the_fixed_part_is_told() -> None:
    record = logging.LogRecord("httpx", 30, "", 1, "asked %s\nand more", (SECRET,), None)

    assert private_formatter().format(record).endswith('event="asked (withheld)"')


@pytest.mark.parametrize("template", ["%s", "%-10s", "%(name)s", "%5.2f", "%*d", "%r"])
def test_no_template_is_shown_unfilled(template: str) -> None:
    record = logging.LogRecord("uvicorn", 30, "", 1, f"took {template} of it", ({"name": 1},), None)

    assert 'event="took (withheld) of it"' in private_formatter().format(record)


def test_a_percentage_that_is_no_template_stays() -> None:
    record = logging.LogRecord("bot", 30, "", 1, "90% of it", None, None)

    assert 'event="90% of it"' in private_formatter().format(record)


def test_the_database_repeats_no_words_in_its_errors(engine: Engine) -> None:
    with pytest.raises(SQLAlchemyError) as caught, writing(engine) as session:
        session.execute(text("INSERT INTO nowhere VALUES (:text)"), {"text": SECRET})

    assert SECRET not in str(caught.value)


def of_library(said: str, at: float, name: str = "asyncio") -> logging.LogRecord:
    """A line of a library at a second."""
    record = logging.LogRecord(name, 40, __file__, 1, said, None, None)
    record.created = at
    return record


def test_a_library_says_the_same_only_so_often_in_a_minute() -> None:
    limit = LibraryRateLimit()
    said = [of_library(f"no more files\nsocket: {number}", 60.0 + number) for number in range(50)]
    shown = [record for record in said if limit.filter(record)]

    assert len(shown) == MOST_A_MINUTE
    assert "most=10" in private_formatter().format(shown[-1])
    assert "most" not in private_formatter().format(shown[-2])
    assert limit.filter(of_library("something else", 110))
    assert limit.filter(of_library("no more files", 120))


def test_our_own_lines_are_all_written() -> None:
    limit = LibraryRateLimit()
    ours = [of_library("a message was sent", 60.0, "bot.delivery.sender") for _ in range(50)]

    assert all(map(limit.filter, ours))
