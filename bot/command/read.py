"""The read command: how a text would be understood."""

import json
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, date, datetime
from typing import Any

import click

from bot.command.as_json import reading_as_json
from bot.command.call import Call, InputError
from bot.command.options import crew_option, json_option, on_option, pass_call
from bot.command.screen import show
from bot.command.whose import nobody_called, nobodys_situation, situation_for
from bot.reading.reader import read
from bot.reading.situation import Situation
from bot.wording.help import LONGEST_TEXT
from scheduling.records.engine import reading


@click.command("read")
@click.argument("text", metavar="TEXT", nargs=-1, required=True)
@on_option
@click.option("--for", "name", metavar="NAME", help="As if NAME had written it.")
@crew_option
@json_option
@pass_call
def read_command(
    call: Call,
    text: tuple[str, ...],
    on: date | None,
    name: str | None,
    crew: int | None,
    *,
    as_json: bool,
) -> None:
    """Show how a message would be understood; nothing is changed.

    Units are those of the crew; where nobody is in the database yet, any unit is taken to exist.
    With several yards each entry names its own.
    """
    said = " ".join(text)
    if len(said) > LONGEST_TEXT:
        raise InputError(f"the text is too long (over {LONGEST_TEXT} characters)")
    with _situation(call, name, on, crew) as situation:
        form = reading_as_json(read(said, situation), with_yards=len(situation.yards) > 1)
    show(json.dumps(form, ensure_ascii=False) if as_json else _lines(form))


@contextmanager
def _situation(
    call: Call, name: str | None, on: date | None, crew: int | None
) -> Iterator[Situation]:
    engine, now = call.engine_to_look(), datetime.now(UTC)
    if engine is not None:
        # What a situation holds of the units is looked up only when the text needs it.
        with reading(engine) as session:
            yield situation_for(session, name, on, now, crew)
    elif name is not None:
        raise nobody_called(name, [])
    else:
        yield nobodys_situation(on, now)


def _lines(form: dict[str, Any]) -> str:
    lines = [_entry(entry) for entry in form["entries"]]
    lines += [f"?  {question}" for question in form["questions"]]
    lines += [f"command: {form['command']}"] if form["command"] else []
    return "\n".join(lines)


def _entry(entry: dict[str, Any]) -> str:
    value = "" if entry["value"] is None else f" {entry['value']}"
    return f"{entry['on']}  {entry['unit'] or entry.get('batch') or '-'}  {entry['kind']}{value}"
