"""The morning command: what a person is told in the morning of a day."""

import json
from collections.abc import Sequence
from datetime import UTC, date, datetime

import click

from bot.command.as_json import check_row
from bot.command.call import Call
from bot.command.options import crew_option, json_option, on_option, pass_call
from bot.command.screen import show
from bot.command.whose import nobody_called, person_named
from bot.conversation.work_out_morning import Morning, morning_of
from bot.wording.days_and_numbers import full_day
from scheduling.checks.check import Check
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from scheduling.wall_time import local_day


@click.command("morning")
@on_option
@click.option("--for", "name", metavar="NAME", required=True, help="Whose morning.")
@crew_option
@json_option
@pass_call
def morning_command(
    call: Call, on: date | None, name: str, crew: int | None, *, as_json: bool
) -> None:
    """Show a person's morning message; nothing is sent or changed."""
    engine = call.engine_to_look()
    if engine is None:
        raise nobody_called(name, [])
    with reading(engine) as session:
        person = person_named(session, name, crew)
        day = on or local_day(datetime.now(UTC), person.zone)
        found = morning_of(CrewRecords(session, person.crew_id), person, day)
    if as_json:
        show(json.dumps(_as_json(found, day, person.name), ensure_ascii=False, indent=1))
    elif found.message is None:
        show(f"Nothing is due on {full_day(day)}; no message is sent.")
    else:
        show("\n".join(found.message.parts))


def _as_json(found: Morning, day: date, name: str) -> dict[str, object]:
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
            **check_row(check, day),
        }
        for check in checks
    ]
