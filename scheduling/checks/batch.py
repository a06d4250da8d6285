"""What batches of grafted cells need until they are placed."""

from collections.abc import Mapping
from datetime import date
from typing import NamedTuple

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, in_order, put_off
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.trade import table
from scheduling.trade.constant import days_after
from scheduling.units.colony import with_put_off
from scheduling.units.rounds import graft_day
from scheduling.values import PutOff


class BatchChecks(NamedTuple):
    """The checks of each batch; and batches of which they could not be worked out, and why not."""

    checks: Mapping[Place, tuple[Check, ...]]
    left_out: Mapping[Place, str]


def checks_of_batches(by_place: Mapping[Place, list[Entry]], log: list[Entry]) -> BatchChecks:
    """Work out the checks of each batch of grafted cells that was not placed.

    Args:
        by_place: standing entries, oldest first, by the place that they are about.
        log: all of them.

    """
    grafted = {
        place: told
        for place, told in by_place.items()
        if place.unit is None and any(entry.kind is EntryKind.GRAFTED for entry in told)
    }
    if not grafted:
        return BatchChecks({}, {})
    cells = [entry for entry in log if entry.kind is EntryKind.CELL_PLACED]
    placed = frozenset(day for entry in cells for day in _possible_grafts(entry))
    checks: dict[Place, tuple[Check, ...]] = {}
    left_out: dict[Place, str] = {}
    for place, told in grafted.items():
        try:
            checks[place] = _checks_of_batch(place, told, placed)
        except Exception as error:  # noqa: BLE001 - whatever the rule, and whatever was told
            left_out[place] = type(error).__name__
    return BatchChecks(checks, left_out)


def _possible_grafts(cell: Entry) -> tuple[date, ...]:
    """Give the graft day of a cell placed, or every one it may have where its age was not told.

    A cell whose day cannot be reckoned back from is of no batch.
    """
    ages = range(int(table.RIPE_CELL_AGE.low), int(table.RIPE_CELL_AGE.high) + 1)
    try:
        if cell.value is not None:
            return (graft_day(cell),)
        return tuple(days_after(cell.on, -age) for age in ages)
    except OverflowError:
        return ()


def _checks_of_batch(
    place: Place, told: list[Entry], grafts_placed: frozenset[date]
) -> tuple[Check, ...]:
    """Leave the cells alone while the pupae hang loose, then place them ripe.

    A batch of which some cells are placed is done.
    """
    grafted = max(entry.on for entry in told if entry.kind is EntryKind.GRAFTED)
    if grafted in grafts_placed:
        return ()
    return in_order((_loose(place, grafted), put_off(_ripe(place, grafted), _put_offs(told))))


def _loose(place: Place, grafted: date) -> Check:
    first = table.PUPAE_HANG_LOOSE_FROM.after(grafted)
    last = table.PUPAE_HANG_LOOSE_UNTIL.after(grafted)
    return Check(place, CheckKind.REST, first, None, last, Why(Cause.PUPAE_HANG_LOOSE, about=last))


def _ripe(place: Place, grafted: date) -> Check:
    ripe = table.RIPE_LOOK_FROM_GRAFT.window(grafted)
    why = Why(Cause.CELLS_READY, seen=grafted, about=ripe.best)
    return Check(place, CheckKind.CELLS_RIPE, ripe.not_before, ripe.best, ripe.by, why)


def _put_offs(entries: list[Entry]) -> tuple[PutOff, ...]:
    put_offs: tuple[PutOff, ...] = ()
    for entry in entries:
        if isinstance(entry.value, PutOff):
            put_offs = with_put_off(put_offs, entry.value)
    return put_offs
