"""How a unit loses its queen, goes wrong, or ends."""

from scheduling.entries import Entry
from scheduling.units.rounds import LAYING
from scheduling.units.state import Stage, UnitState


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
        grafted_on=None,
        emergence_due=None,
        emergence_seen=False,
        mated_when_placed=False,
        still_sealed_on=None,
        still_caged_on=None,
        released_on=None,
        virgin_seen_on=None,
        queen_seen_on=None,
        no_eggs_on=None,
        eggs_on=None,
        eggs_last_on=None,
        sealed_on=None,
        pattern=None,
        own_cells_on=None,
    )
