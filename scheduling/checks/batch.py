"""What a batch of grafted cells needs until it is placed."""

from collections.abc import Iterable
from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, in_order, put_off
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.trade import table
from scheduling.units.colony import with_put_off
from scheduling.values import PutOff


def checks_for_batch(
    place: Place, entries: Iterable[Entry], grafts_placed: frozenset[date] = frozenset()
) -> tuple[Check, ...]:
    """Leave the cells alone while the pupae hang loose, then place them ripe.

    ``entries`` are the standing entries about the batch, oldest first; ``grafts_placed`` the
    graft days of the cells that the crew has placed: a batch of which some are placed is done.
    """
    told = tuple(entries)
    grafted = max((e.on for e in told if e.kind is EntryKind.GRAFTED), default=None)
    if grafted is None or grafted in grafts_placed:
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


def _put_offs(entries: tuple[Entry, ...]) -> tuple[PutOff, ...]:
    put_offs: tuple[PutOff, ...] = ()
    for entry in entries:
        if isinstance(entry.value, PutOff):
            put_offs = with_put_off(put_offs, entry.value)
    return put_offs
