"""The timetable command: what follows from one start event."""

import json
from datetime import UTC, date, datetime

import click

from bot.command.as_json import check_row
from bot.command.call import InputError
from bot.command.options import Day, json_option
from bot.command.screen import show
from bot.reading.lexicon.measures import OLDEST_CELL_DAYS, OLDEST_CELL_EGG_DAYS, OLDEST_VIRGIN_DAYS
from bot.wording.start_plans import timetable_lines
from scheduling.checks.calendar import START_EVENTS, timetable
from scheduling.entry_kinds import EntryKind
from scheduling.values import CellAge, VirginAge

_SHORT = {
    "cell": EntryKind.CELL_PLACED,
    "virgin": EntryKind.VIRGIN_PLACED,
    "caged": EntryKind.CAGED_QUEEN_PLACED,
    "own": EntryKind.RAISING_OWN,
    "graft": EntryKind.GRAFTED,
    "made_up": EntryKind.MADE_UP,
}
"""Short words for the start events; their names in the log are taken too."""

_KINDS = list(dict.fromkeys([*_SHORT, *map(str, _SHORT.values()), *map(str, sorted(START_EVENTS))]))


@click.command("timetable")
@click.argument("kind", metavar="KIND", type=click.Choice(_KINDS))
@click.option("--on", "on", type=Day(), metavar="DATE", help="The day of the start; else today.")
@click.option(
    "--age",
    metavar="DAYS",
    help="Of a cell: days since the graft, or 14e since the egg. Of a virgin: since she emerged.",
)
@json_option
def timetable_command(kind: str, on: date | None, age: str | None, *, as_json: bool) -> None:
    """What follows from one start event, and when.

    KIND is cell, virgin, caged (a mated queen in a cage), own (a unit left to raise its own
    queen), graft (a batch of larvae) or made_up (a unit stocked, without a queen yet).
    """
    day = on or datetime.now(UTC).astimezone().date()
    start = _SHORT.get(kind) or EntryKind(kind)
    found = timetable(start, day, _age(start, age))
    checks = sorted(found, key=lambda check: check.not_before)
    if as_json:
        show(json.dumps([check_row(check, day) for check in checks], indent=1))
    else:
        show(timetable_lines(checks, day))


def _age(kind: EntryKind, text: str | None) -> CellAge | VirginAge | None:
    if text is None:
        return None
    if kind not in (EntryKind.CELL_PLACED, EntryKind.VIRGIN_PLACED):
        raise InputError(f"--age goes with a cell or a virgin, not with {kind}")
    return _cell_age(text) if kind is EntryKind.CELL_PLACED else _virgin_age(text)


def _cell_age(text: str) -> CellAge:
    try:
        age = CellAge.parse(text)
    except ValueError:
        raise InputError(
            f"--age {text!r} is not a cell's age; write days since the graft, or 14e since the egg"
        ) from None
    if (age.days_since_graft or 0) > OLDEST_CELL_DAYS:
        raise InputError(f"--age {text}: a cell is out by {OLDEST_CELL_DAYS:g} days from the graft")
    if (age.days_since_egg or 0) > OLDEST_CELL_EGG_DAYS:
        raise InputError(
            f"--age {text}: a cell is out by {OLDEST_CELL_EGG_DAYS:g} days from the egg"
        )
    return age


def _virgin_age(text: str) -> VirginAge:
    try:
        days = float(text)
    except ValueError:
        raise InputError(f"--age {text!r} is not a virgin's age; write days") from None
    if not 0 <= days <= OLDEST_VIRGIN_DAYS:
        raise InputError(f"--age {text}: a virgin is 0 to {OLDEST_VIRGIN_DAYS:g} days old")
    return VirginAge(days)
