"""The check command."""

from collections.abc import Iterator
from datetime import UTC, datetime

import click
from sqlalchemy import Engine
from sqlalchemy.exc import DatabaseError

from bot.command.call import Call, DamagedError, one_line
from bot.command.options import pass_call
from bot.command.screen import show
from bot.command.whose import nobody_yet
from bot.delivery.silent_channels import overdue
from scheduling.records.engine import reading
from scheduling.records.integrity import cannot_be_read, damage, faults_of_crews

_WRONG = 1
"""Exit code when something is wrong."""


@click.command("check")
@pass_call
def check_command(call: Call) -> None:
    """See whether the database is whole, every log can be worked out, and no message is stuck.

    What is wrong is named in a line each, and the exit code is 1. Nothing is changed.
    """
    wrong = [one_line(line) for line in _found(call, datetime.now(UTC))]
    show("\n".join(wrong) if wrong else "all is well")
    if wrong:
        click.get_current_context().exit(_WRONG)


def _found(call: Call, now: datetime) -> list[str]:
    try:
        engine = call.engine_to_look()
    except DamagedError as error:
        return [error.message]
    if engine is None:
        raise nobody_yet(call)
    return list(_wrong(engine, now))


def _wrong(engine: Engine, now: datetime) -> Iterator[str]:
    with engine.connect() as connection:
        broken = damage(connection)
    yield from broken
    if broken:
        return
    try:
        with reading(engine) as session:
            yield from faults_of_crews(session, now)
            yield from overdue(session, now)
    except DatabaseError as error:
        yield cannot_be_read(error)
