"""What each kind of entry changes in a unit, and the state of a unit folded from its entries."""

from collections.abc import Callable, Iterable, Sequence
from datetime import date

from scheduling.entries import Entry
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.trade import table
from scheduling.trade.constant import days_after
from scheduling.units import colony, rounds
from scheduling.units.colony import without_answered
from scheduling.units.rounds import queen_lost
from scheduling.units.state import Stage, UnitState
from scheduling.values import Brood, Pattern

NOT_OUT_YET = frozenset({Stage.EMPTY, Stage.WAITING, Stage.CELL, Stage.RAISING_OWN})


def emerged(state: UnitState, entry: Entry) -> UnitState:
    """Take her to be out."""
    if state.stage not in NOT_OUT_YET:
        return state._replace(emergence_seen=True)
    return _out(state, entry.on)


def not_emerged(state: UnitState, entry: Entry) -> UnitState:
    """Expect her a day after this look, or give the cell up if it is long past its time."""
    if state.eggs_on is not None or state.stage not in {*NOT_OUT_YET, Stage.VIRGIN}:
        return state
    if _sealed_too_long(state, entry.on):
        return queen_lost(state, entry)
    due = max(state.emergence_due or entry.on, days_after(entry.on, 1))
    stage = Stage.RAISING_OWN if state.started_by is EntryKind.RAISING_OWN else Stage.CELL
    sealed = entry.on
    return state._replace(
        stage=stage, emergence_due=due, emergence_seen=False, still_sealed_on=sealed
    )


def released(state: UnitState, entry: Entry) -> UnitState:
    """Let a caged queen out, mated and not yet seen to lay."""
    if state.stage is not Stage.CAGED:
        return state
    return state._replace(stage=Stage.VIRGIN, released_on=entry.on)


def still_caged(state: UnitState, entry: Entry) -> UnitState:
    """Know her to be in the cage still."""
    if not state.mated_when_placed or state.stage not in {Stage.CAGED, Stage.VIRGIN}:
        return state
    return state._replace(stage=Stage.CAGED, still_caged_on=entry.on, released_on=None)


def virgin_seen(state: UnitState, entry: Entry) -> UnitState:
    """Know a virgin to be out and not to lay yet."""
    out = _out(state, entry.on) if state.stage in NOT_OUT_YET else state
    due = out.emergence_due
    if due is None and not out.mated_when_placed:
        due = entry.on
    return out._replace(virgin_seen_on=entry.on, emergence_due=due)


def queen_seen(state: UnitState, entry: Entry) -> UnitState:
    """Know a queen to be there; in a unit thought to have none, one of unknown age."""
    if state.stage in {Stage.EMPTY, Stage.WAITING}:
        state = state._replace(stage=Stage.VIRGIN, lost_by=None, lost_on=None)
    elif state.stage in NOT_OUT_YET:
        state = _out(state, entry.on)
    return state._replace(queen_seen_on=entry.on)


def eggs(state: UnitState, entry: Entry) -> UnitState:
    """Know her to lay."""
    begun = state._replace(eggs_on=state.eggs_on or entry.on)
    stage = Stage.PROVEN if state.stage is Stage.PROVEN else Stage.LAYING
    return _laying(begun, entry.on, stage)


def no_eggs(state: UnitState, entry: Entry) -> UnitState:
    """Know that no eggs were found; past its time the cell or cage must have opened meanwhile."""
    state = state._replace(no_eggs_on=entry.on)
    due = state.emergence_due
    if state.stage in {Stage.CELL, Stage.RAISING_OWN} and due is not None and due < entry.on:
        return state._replace(stage=Stage.VIRGIN)
    if state.stage is Stage.CAGED and state.started_on is not None:
        let_out = table.RELEASE_LOOK.window(state.started_on)
        if let_out.by < entry.on:
            return state._replace(stage=Stage.VIRGIN, released_on=let_out.best)
    return state


def sealed_brood(state: UnitState, entry: Entry) -> UnitState:
    """Know her by her sealed brood; said without a pattern it is a good one."""
    assert entry.value is None or isinstance(entry.value, Brood)  # noqa: S101 - checked when made
    pattern = entry.value.pattern if entry.value is not None else Pattern.GOOD
    stage = Stage.PROVEN if pattern is Pattern.GOOD else Stage.LAYING
    first = state.eggs_on or _eggs_before_sealed(state, entry.on)
    known = state._replace(sealed_on=entry.on, pattern=pattern, eggs_on=first)
    return _laying(known, entry.on, stage)


def _laying(state: UnitState, day: date, stage: Stage) -> UnitState:
    return state._replace(
        stage=stage, eggs_last_on=day, young_brood_on=day, lost_by=None, lost_on=None
    )


def _eggs_before_sealed(state: UnitState, day: date) -> date:
    """Work out when she began at the latest, for brood already sealed on ``day``."""
    laid = table.SEALED_BROOD_LOOK.before(day)
    return max(laid, state.started_on) if state.started_on is not None else laid


def _out(state: UnitState, day: date) -> UnitState:
    """Take her to be out on ``day``.

    An open cell only says that she came out on that day or before it. So her own expected day,
    or the day after the cell was last seen sealed, stands; an earlier look moves it forward.
    """
    due = min(state.emergence_due, day) if state.emergence_due is not None else day
    return state._replace(
        stage=Stage.VIRGIN,
        emergence_due=due,
        emergence_seen=True,
        lost_by=None,
        lost_on=None,
    )


def _sealed_too_long(state: UnitState, day: date) -> bool:
    if state.grafted_on is None:
        return False
    latest = int(table.EMERGENCE_FROM_GRAFT.high) + table.SEALED_TOO_LONG.days
    return (day - state.grafted_on).days >= latest


Effect = Callable[[UnitState, Entry], UnitState]
"""The unit after the entry, given the unit before it."""


def no_effect(state: UnitState, _entry: Entry) -> UnitState:
    """Leave the unit as it was."""
    return state


WITHOUT_EFFECT = {
    EntryKind.GRAFTED: "larvae are grafted into a batch, not into a unit",
    EntryKind.QUEEN_NOT_SEEN: "a queen that was not seen may still be there",
    EntryKind.BEES_ADDED: "they bring no young brood; the colony's account counts them",
    EntryKind.WEATHER_SEEN: "weather belongs to the yard and comes in beside the entries",
    EntryKind.FORAGE_SEEN: "forage belongs to the yard; the food account reads it there",
    EntryKind.YARD_TAKEN: "who goes to the yard changes nothing in its units",
    EntryKind.NOTE: "a note is for people",
    EntryKind.MOVED: "a move is worked off before the entries are folded",
    EntryKind.STRIKE: "a strike is worked off before the entries are folded",
}
"""Kinds that change nothing in a unit, and why."""

EFFECTS: dict[EntryKind, Effect] = {
    EntryKind.MADE_UP: rounds.made_up,
    EntryKind.CELL_PLACED: rounds.cell_placed,
    EntryKind.VIRGIN_PLACED: rounds.virgin_placed,
    EntryKind.CAGED_QUEEN_PLACED: rounds.caged_queen_placed,
    EntryKind.RAISING_OWN: rounds.raising_own,
    EntryKind.EMERGED: emerged,
    EntryKind.NOT_EMERGED: not_emerged,
    EntryKind.RELEASED: released,
    EntryKind.STILL_CAGED: still_caged,
    EntryKind.VIRGIN_SEEN: virgin_seen,
    EntryKind.QUEEN_SEEN: queen_seen,
    EntryKind.EGGS: eggs,
    EntryKind.NO_EGGS: no_eggs,
    EntryKind.SEALED_BROOD: sealed_brood,
    EntryKind.CELL_FAILED: rounds.queen_lost,
    EntryKind.QUEEN_DEAD: rounds.queen_lost,
    EntryKind.QUEEN_TAKEN: rounds.queen_lost,
    EntryKind.DRONE_LAYER: rounds.drone_layer,
    EntryKind.LAYING_WORKERS: rounds.laying_workers,
    EntryKind.OWN_CELLS: rounds.own_cells,
    EntryKind.ABSCONDED: rounds.ended,
    EntryKind.DEAD: rounds.ended,
    EntryKind.COMBINED: rounds.ended,
    EntryKind.EMPTIED: rounds.ended,
    EntryKind.FED: colony.fed,
    EntryKind.STORES: colony.stores,
    EntryKind.TRAP_SET: colony.trap_set,
    EntryKind.TRAP_SERVICED: colony.trap_serviced,
    EntryKind.BROOD_ADDED: colony.brood_added,
    EntryKind.ROBBED: colony.robbed,
    EntryKind.PUT_OFF: colony.note_put_off,
    **dict.fromkeys(WITHOUT_EFFECT, no_effect),
}


def fold(place: Place, entries: Iterable[Entry], days_not_flying: Iterable[date] = ()) -> UnitState:
    """Tell what a unit is now.

    ``entries`` are the standing entries about the unit in the order they happened;
    ``days_not_flying`` the days on which, by the keeper's word, no queen could fly there.
    """
    told = tuple(entries)
    state = UnitState(place)
    for entry in told:
        state = _after(state, entry)
    grounded = tuple(sorted(set(days_not_flying))) if days_not_flying else ()
    return state._replace(entries=told, days_not_flying=grounded, looked_on=_looked_on(told))


def _looked_on(told: Sequence[Entry]) -> date | None:
    for entry in reversed(told):
        if ENTRY_FACTS[entry.kind].opened:
            return entry.on
    return None


def _after(state: UnitState, entry: Entry) -> UnitState:
    after = EFFECTS[entry.kind](state, entry)
    if not after.put_offs:
        return after
    put_offs = without_answered(after.put_offs, entry.kind)
    return after if put_offs == after.put_offs else after._replace(put_offs=put_offs)
