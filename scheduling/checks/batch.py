"""What batches of grafted cells need until they are placed."""

from collections.abc import Mapping
from datetime import date

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


def checks_of_batches(
    by_place: Mapping[Place, list[Entry]], log: list[Entry]
) -> dict[Place, tuple[Check, ...]]:
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
        return {}
    cells = [entry for entry in log if entry.kind is EntryKind.CELL_PLACED]
    placed = frozenset(day for entry in cells for day in _possible_grafts(entry))
    return {place: _checks_of_batch(place, told, placed) for place, told in grafted.items()}


def _possible_grafts(cell: Entry) -> tuple[date, ...]:
    """Give the graft day of a cell placed, or every one it may have where its age was not told."""
    if cell.value is not None:
        return (graft_day(cell),)
    ages = range(int(table.RIPE_CELL_AGE.low), int(table.RIPE_CELL_AGE.high) + 1)
    return tuple(days_after(cell.on, -age) for age in ages)


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
