"""The entries that begin and end a round: make-up, each new cell or queen, and each loss."""

from datetime import date
from typing import Any

from scheduling.entries import Entry
from scheduling.trade import table
from scheduling.trade.constant import days_after
from scheduling.units.state import Stage, UnitState
from scheduling.values import CellAge, MakeUp, VirginAge

LAYING = frozenset({Stage.LAYING, Stage.PROVEN})

_OF_HER = (
    *("grafted_on", "emergence_due", "emergence_seen", "mated_when_placed", "still_sealed_on"),
    *("still_caged_on", "released_on", "virgin_seen_on", "queen_seen_on", "no_eggs_on"),
    *("eggs_on", "eggs_last_on", "sealed_on", "pattern", "own_cells_on"),
)
_NOTHING_OF_HER: dict[str, Any] = {name: UnitState._field_defaults[name] for name in _OF_HER}
"""What is known of a queen of whom nothing was told."""


def made_up(state: UnitState, entry: Entry) -> UnitState:
    """Stock a unit; with a queen or cell already in it, only its brood is new."""
    assert entry.value is None or isinstance(entry.value, MakeUp)  # noqa: S101 - checked when made
    if state.stage in {Stage.EMPTY, Stage.ENDED}:
        state = UnitState(state.place, round=state.round, stage=Stage.WAITING)
    brood = _youngest_brood(entry.on, entry.value)
    if entry.value is None or entry.value.food_frames is None:
        return state._replace(made_up_on=entry.on, young_brood_on=brood)
    return state._replace(
        made_up_on=entry.on,
        young_brood_on=brood,
        food_seen_on=entry.on,
        food_deep_frames=entry.value.food_frames,
    )


def cell_placed(state: UnitState, entry: Entry) -> UnitState:
    """Start a round with a queen cell; of unknown age it is taken for a ripe one."""
    grafted = graft_day(entry)
    emerges = max(table.EMERGENCE_FROM_GRAFT.after(grafted), entry.on)
    return _new_round(state, entry, Stage.CELL, grafted_on=grafted, emergence_due=emerges)


def graft_day(entry: Entry) -> date:
    """Work out the graft day of a cell placed, in whole days, from the age it was told to have."""
    age = entry.value
    assert age is None or isinstance(age, CellAge)  # noqa: S101 - checked when made
    if age is None:
        return table.RIPE_CELL_AGE.before(entry.on)
    if age.days_since_graft is not None:
        return days_after(entry.on, -round(age.days_since_graft))
    assert age.days_since_egg is not None  # noqa: S101 - a cell's age has one of the two
    return table.GRAFT_FROM_EGG.after(days_after(entry.on, -round(age.days_since_egg)))


def virgin_placed(state: UnitState, entry: Entry) -> UnitState:
    """Start a round with a virgin; of unknown age she is taken for newly emerged."""
    age = entry.value
    assert age is None or isinstance(age, VirginAge)  # noqa: S101 - checked when made
    emerged = days_after(entry.on, -round(age.days)) if age is not None else entry.on
    return _new_round(state, entry, Stage.VIRGIN, emergence_due=emerged, emergence_seen=True)


def caged_queen_placed(state: UnitState, entry: Entry) -> UnitState:
    """Start a round with a mated queen in a cage."""
    return _new_round(state, entry, Stage.CAGED, mated_when_placed=True)


def raising_own(state: UnitState, entry: Entry) -> UnitState:
    """Start a round in which the unit raises a queen from its own larvae."""
    emerges = table.OWN_EMERGENCE.after(entry.on)
    return _new_round(state, entry, Stage.RAISING_OWN, emergence_due=emerges)


def _new_round(state: UnitState, entry: Entry, stage: Stage, **known_of_her: Any) -> UnitState:
    """Keep what is known of the colony and forget what was known of its last queen."""
    kept = state if state.stage is not Stage.ENDED else UnitState(state.place)
    return kept._replace(
        stage=stage,
        round=state.round + 1,
        started_by=entry.kind,
        started_on=entry.on,
        young_brood_on=_brood_at_start(kept, entry.on),
        lost_by=None,
        lost_on=None,
        brood_added_on=None,
        **_NOTHING_OF_HER | known_of_her,
    )


def _brood_at_start(state: UnitState, day: date) -> date:
    """Give the last day of eggs; a unit whose make-up is not known counts as stocked that day."""
    if state.stage in LAYING or state.young_brood_on is None:
        return day
    return state.young_brood_on


def _youngest_brood(day: date, stocked: MakeUp | None) -> date:
    """Give the last day its youngest brood may have been laid: sealed brood is nine days old."""
    if stocked is not None and (stocked.brood_frames == 0 or stocked.sealed_share == 1):
        return table.WORKER_OPEN_BROOD.before(day)
    return day


def queen_lost(state: UnitState, entry: Entry) -> UnitState:
    """Take the queen or cell to be gone; the first day of a loss stands."""
    if state.stage is Stage.ENDED or (state.stage is Stage.WAITING and state.lost_on is not None):
        return state
    return _without_queen(state, entry, Stage.WAITING)


def drone_layer(state: UnitState, entry: Entry) -> UnitState:
    """Know her brood to be drones only."""
    return _without_queen(state._replace(stage=Stage.VIRGIN), entry, Stage.DRONE_LAYER)


def laying_workers(state: UnitState, entry: Entry) -> UnitState:
    """Know the workers to lay."""
    return _without_queen(state._replace(stage=Stage.VIRGIN), entry, Stage.LAYING_WORKERS)


def own_cells(state: UnitState, entry: Entry) -> UnitState:
    """Note cells of the unit's own; they matter while it has no queen."""
    return state._replace(own_cells_on=entry.on)


def ended(state: UnitState, entry: Entry) -> UnitState:
    """End the unit, until it is stocked again."""
    return state._replace(stage=Stage.ENDED, lost_by=entry.kind, lost_on=entry.on, put_offs=())


def _without_queen(state: UnitState, entry: Entry, stage: Stage) -> UnitState:
    """Forget the queen's own dates; eggs of a laying queen may date from her last day."""
    brood = entry.on if state.stage in LAYING else state.young_brood_on
    return state._replace(
        stage=stage,
        lost_by=entry.kind,
        lost_on=entry.on,
        young_brood_on=brood,
        **_NOTHING_OF_HER,
    )
