"""What each check asks a keeper to do, and what a unit's stage is called."""

from bot.wording.quantities import counted
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Why
from scheduling.units import Stage, UnitState

_TO_DO: dict[CheckKind, str] = {
    CheckKind.CELLS_RIPE: "place cells",
    CheckKind.EMERGENCE: "see if out",
    CheckKind.RELEASE: "check cage",
    CheckKind.REST: "leave alone",
    CheckKind.LAYING: "look for eggs",
    CheckKind.SEALED_BROOD: "look for sealed brood",
    CheckKind.GIVE_UP: "last look for eggs",
    CheckKind.FEED: "check food",
    CheckKind.TRAP: "see to trap",
    CheckKind.RECELL: "give a cell",
    CheckKind.BOOST: "boost",
    CheckKind.TAKE: "queen ready",
    CheckKind.MOVE_UP: "move held queen",
}

_OTHERWISE: dict[tuple[CheckKind, Cause], str] = {
    (CheckKind.GIVE_UP, Cause.LAYING_WORKERS_SEEN): "break up",
    (CheckKind.FEED, Cause.FOOD_LOW): "feed",
    (CheckKind.FEED, Cause.FOOD_RUNS_LOW): "feed",
    (CheckKind.BOOST, Cause.FEW_BEES): "add nurse bees",
    (CheckKind.BOOST, Cause.BEES_RUN_SHORT): "give brood",
    (CheckKind.RECELL, Cause.TOO_WEAK): "combine",
    (CheckKind.FEED, Cause.ROBBED): "check for robbing",
    (CheckKind.TRAP, Cause.MANY_BEETLES): "see to trap and look for larvae",
}
"""Where the cause changes what there is to do."""

_STAGES: dict[Stage, str] = {
    Stage.EMPTY: "empty",
    Stage.WAITING: "no queen, no cell",
    Stage.CELL: "cell",
    Stage.CAGED: "queen in cage",
    Stage.RAISING_OWN: "raising its own",
    Stage.VIRGIN: "virgin",
    Stage.LAYING: "laying",
    Stage.PROVEN: "laying, good brood",
    Stage.DRONE_LAYER: "drone layer",
    Stage.LAYING_WORKERS: "laying workers",
    Stage.ENDED: "ended",
}


def to_do(kind: CheckKind, why: Why | None = None) -> str:
    """Say what there is to do, as in ``look for eggs``; without a capital."""
    if why is None:
        return _TO_DO[kind]
    if why.cause is Cause.FEW_BEES and why.shakes:
        return f"add {counted(why.shakes, 'shake', 'shakes')} of nurse bees"
    if why.cause is Cause.TRAP_FULL and why.seen is None:
        return "put a trap in"
    return _OTHERWISE.get((kind, why.cause), _TO_DO[kind])


def stage_name(state: UnitState) -> str:
    """Say what the unit is now, as in ``virgin`` or ``laying, good brood``."""
    if state.stage is Stage.VIRGIN and state.mated_when_placed:
        return "mated queen, not yet seen to lay"
    return _STAGES[state.stage]
