"""The next cell for a unit without a queen, and brood to keep it right until she lays."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due
from scheduling.checks.queen_dates import QUEENLESS
from scheduling.colony.account import account_of
from scheduling.colony.bees_enough import AnotherRound, another_round
from scheduling.colony.unit_make_up import strength_told
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.trade.constant import Window, days_after
from scheduling.units.state import Stage, UnitState


def next_round(state: UnitState) -> tuple[Check, ...]:
    """Give the next cell, with young brood where the unit has been without for long."""
    since = queenless_since(state) if state.stage in QUEENLESS else None
    if since is None:
        return ()
    window = _window(state, since)
    verdict = _verdict(state, window.best)
    if verdict is AnotherRound.COMBINE:
        return (due(state, CheckKind.RECELL, window, Why(Cause.TOO_WEAK, seen=since)),)
    cell = due(state, CheckKind.RECELL, window, _why(state, since))
    return (cell, *_boost(state, cell, wanted=_brood_needed(state, since, verdict)))


def verdict_on(state: UnitState, since: date) -> AnotherRound | None:
    """Judge whether a unit without a queen since then is worth another round; None for unknown."""
    return _verdict(state, _window(state, since).best)


def queenless_since(state: UnitState) -> date | None:
    """Give the day the queen was lost, taken or found bad, or the unit stocked without one."""
    return state.lost_on or state.made_up_on or state.looked_on


def open_brood_until(state: UnitState) -> date | None:
    """Give the day the last worker brood is sealed if no queen lays any more."""
    if state.young_brood_on is None:
        return None
    return table.WORKER_OPEN_BROOD.after(state.young_brood_on)


def laying_workers_likely(state: UnitState) -> date | None:
    """Give the day from which laying workers become likely if no queen lays any more."""
    sealed = open_brood_until(state)
    return table.LAYING_WORKERS.after(sealed) if sealed is not None else None


def _window(state: UnitState, since: date) -> Window:
    if state.lost_by is EntryKind.QUEEN_TAKEN:
        return table.RECELL_AFTER_TAKING.window(since)
    window = table.RECELL_AFTER_LOSS.window(since)
    likely = laying_workers_likely(state)
    return window.ending_by(likely) if likely is not None else window


_CAUSES = {
    EntryKind.CELL_FAILED: Cause.CELL_WAS_BAD,
    EntryKind.NOT_EMERGED: Cause.CELL_WAS_BAD,
    EntryKind.QUEEN_TAKEN: Cause.QUEEN_WAS_TAKEN,
    EntryKind.DRONE_LAYER: Cause.DRONE_LAYER_SEEN,
}


def _why(state: UnitState, since: date) -> Why:
    likely = laying_workers_likely(state)
    if state.own_cells_on is not None and state.stage is Stage.WAITING:
        return Why(Cause.OWN_CELLS_SEEN, seen=state.own_cells_on, about=likely)
    cause = Cause.QUEEN_LOST
    if state.lost_by is not None:
        cause = _CAUSES.get(state.lost_by, Cause.QUEEN_LOST)
    return Why(cause, seen=since, about=likely)


def _brood_needed(state: UnitState, since: date, verdict: AnotherRound | None) -> bool:
    given = state.brood_added_on is not None and state.brood_added_on >= since
    return verdict is AnotherRound.CELL_AND_BROOD and not given


def _verdict(state: UnitState, cell_on: date) -> AnotherRound | None:
    """Judge by the bees whether another cell is worth it; None where they are not known."""
    account = account_of(state.entries)
    if account is None or not strength_told(account.told):
        return None
    return another_round(account, cell_on)


def _boost(state: UnitState, cell: Check, *, wanted: bool) -> tuple[Check, ...]:
    assert cell.best is not None and cell.by is not None  # noqa: S101, PT018 - a dated check
    if not wanted and not _brood_wanted(state, cell.best):
        return ()
    sealed = open_brood_until(state)
    since = min(sealed, cell.not_before) if sealed is not None else None
    why = Why(Cause.NO_OPEN_BROOD, seen=since, about=laying_workers_likely(state))
    window = Window(cell.not_before, cell.best, cell.by)
    return (due(state, CheckKind.BOOST, window, why),)


def _brood_wanted(state: UnitState, cell_on: date) -> bool:
    lost, added = state.lost_on, state.brood_added_on
    if state.stage is Stage.DRONE_LAYER and lost is not None:
        return added is None or added < lost
    young = state.young_brood_on
    limit = table.BOOST_WITHOUT_YOUNG_BROOD.days
    return young is None or cell_on > days_after(young, limit)
