"""Commands that show something and change nothing: timetable, morning, read."""

import json
from collections.abc import Sequence
from datetime import UTC, date, datetime

import click

from bot.bell.wall_time import local_day
from bot.command.group import Call, InputError
from bot.command.options import json_option, on_option, pass_call
from bot.command.whose import person_named, situation_for
from bot.desk.mornings import Morning, morning_of
from bot.reading import plain
from bot.reading.reader import read
from bot.wording.days import full_day
from bot.wording.questions import ask
from bot.wording.reasons import reason
from bot.wording.timetable import timetable_lines
from scheduling.checks.calendar import timetable
from scheduling.checks.check import Check, CheckKind
from scheduling.entries import EntryKind
from scheduling.records.engine import reading
from scheduling.records.gateway import CrewRecords
from scheduling.values import CellAge, VirginAge

START_EVENTS = {
    "cell": EntryKind.CELL_PLACED,
    "virgin": EntryKind.VIRGIN_PLACED,
    "caged": EntryKind.CAGED_QUEEN_PLACED,
    "own": EntryKind.RAISING_OWN,
    "graft": EntryKind.GRAFTED,
    "made_up": EntryKind.MADE_UP,
}
"""Short words for the start events; their names in the log are taken too."""

_KINDS = list(START_EVENTS) + [str(kind) for kind in START_EVENTS.values()]


def _kind(word: str) -> EntryKind:
    return START_EVENTS.get(word) or EntryKind(word)


def _age(kind: EntryKind, text: str | None) -> CellAge | VirginAge | None:
    if text is None:
        return None
    if kind not in (EntryKind.CELL_PLACED, EntryKind.VIRGIN_PLACED):
        raise InputError(f"--age goes with a cell or a virgin, not with {kind}")
    try:
        return CellAge.parse(text) if kind is EntryKind.CELL_PLACED else VirginAge(float(text))
    except ValueError:
        raise InputError(
            f"--age {text!r} is not an age; write days, or 14e for days since the egg"
        ) from None


@click.command("timetable")
@click.argument("kind", metavar="KIND", type=click.Choice(list(dict.fromkeys(_KINDS))))
@on_option
@click.option("--age", metavar="DAYS", help="Cell: days since the graft, or 14e since the egg.")
@json_option
@pass_call
def timetable_command(
    _call: Call, kind: str, on: date | None, age: str | None, *, as_json: bool
) -> None:
    """What follows from one start event, and when.

    KIND is cell, virgin, caged, own (a unit left to raise its own queen), graft or made_up.
    """
    day = on or datetime.now(UTC).astimezone().date()
    start = _kind(kind)
    checks = timetable(start, day, _age(start, age))
    if as_json:
        click.echo(json.dumps([_row(check, day) for check in checks], indent=1))
    else:
        click.echo(timetable_lines(checks, day))


def _row(check: Check, day: date) -> dict[str, object]:
    """A check as scripts get it; ``rest`` is the span of a rest and null for all else."""
    span = {"from": check.not_before.isoformat(), "until": _iso(check.by)}
    return {
        "check": str(check.kind),
        "not_before": check.not_before.isoformat(),
        "best": _iso(check.best),
        "by": _iso(check.by),
        "rest": span if check.kind is CheckKind.REST else None,
        "why": reason(check.why, day),
    }


def _iso(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


@click.command("morning")
@on_option
@click.option("--for", "name", metavar="NAME", required=True, help="Whose morning.")
@json_option
@pass_call
def morning_command(call: Call, on: date | None, name: str, *, as_json: bool) -> None:
    """Show a person's morning message; nothing is sent or changed."""
    with reading(call.engine()) as session:
        person = person_named(session, name)
        day = on or local_day(datetime.now(UTC), person.zone)
        found = morning_of(CrewRecords(session, person.crew_id), person, day)
    if as_json:
        click.echo(json.dumps(_morning_json(found, day, person.name), indent=1))
    elif found.message is None:
        click.echo(f"Nothing is due on {full_day(day)}; no message is sent.")
    else:
        click.echo("\n".join(found.message.parts))


def _morning_json(found: Morning, day: date, name: str) -> dict[str, object]:
    mine = [yard_day for yard_day in found.yards if yard_day.taken_by is None]
    return {
        "for": name,
        "on": day.isoformat(),
        "message": None if found.message is None else found.message.text,
        "more": [] if found.message is None else list(found.message.parts[1:]),
        "due": _placed([check for each in mine for check in each.due], day),
        "rests": _placed([check for each in mine for check in each.rests], day),
        "taken": {each.yard: each.taken_by for each in found.yards if each.taken_by},
    }


def _placed(checks: Sequence[Check], day: date) -> list[dict[str, object]]:
    return [
        {
            "yard": check.place.yard,
            "unit": None if check.place.unit is None else str(check.place.unit),
            "batch": check.place.batch,
            **_row(check, day),
        }
        for check in checks
    ]


@click.command("read")
@click.argument("text", metavar="TEXT", nargs=-1, required=True)
@on_option
@click.option("--for", "name", metavar="NAME", help="As if NAME had written it.")
@json_option
@pass_call
def read_command(
    call: Call, text: tuple[str, ...], on: date | None, name: str | None, *, as_json: bool
) -> None:
    """Show how a message would be understood; nothing is changed."""
    with reading(call.engine()) as session:
        situation = situation_for(session, name, on, datetime.now(UTC))
    found = read(" ".join(text), situation)
    form = plain.as_json(found)
    if as_json:
        click.echo(json.dumps(form, ensure_ascii=False))
        return
    for entry in form["entries"]:
        value = "" if entry["value"] is None else f" {entry['value']}"
        click.echo(f"{entry['on']}  {entry['unit'] or '-'}  {entry['kind']}{value}")
    for question in found.questions:
        click.echo(f"?  {ask(question)}")
    if form["command"]:
        click.echo(f"command: {form['command']}")
