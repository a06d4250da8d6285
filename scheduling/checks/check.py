"""What is due at a unit, put off or past its use; and a rest, in which it must be left alone."""

from collections.abc import Iterable
from datetime import date
from enum import StrEnum
from typing import NamedTuple

from scheduling.check_kinds import CHECK_FACTS, CheckKind
from scheduling.colony.stores import Dose
from scheduling.places import Place
from scheduling.trade import table
from scheduling.trade.constant import Window
from scheduling.units.state import UnitState
from scheduling.values import PutOff


class Cause(StrEnum):
    """Why a check or a rest is there; the words for it stand in the bot's wording."""

    CELLS_READY = "cells_ready"
    """A batch is ripe on ``about``."""
    PUPAE_HANG_LOOSE = "pupae_hang_loose"
    """Cells must not be jolted."""
    SHOULD_BE_OUT = "should_be_out"
    """The queen should have emerged on ``about``."""
    STILL_SEALED = "still_sealed"
    """The cell was still sealed on ``seen``."""
    SETTLING = "settling"
    """A cell or queen was just placed; opening now risks her."""
    CANDY_EATEN = "candy_eaten"
    """The bees have had ``days`` days to let her out."""
    STILL_CAGED = "still_caged"
    """She was still in the cage on ``seen``."""
    MATURING_AND_MATING = "maturing_and_mating"
    """She matures and flies to mate until ``about``."""
    EGGS_EXPECTED = "eggs_expected"
    """Eggs are expected from ``about``."""
    EGGS_DELAYED = "eggs_delayed"
    """Eggs are expected from ``about``, put back by ``days`` days without flying weather."""
    NO_EGGS_YET = "no_eggs_yet"
    """No eggs on ``seen``; she may still lay."""
    MATES_LATE = "mates_late"
    """At the look she is ``days`` days old: fewer mate well, and from ``about`` none."""
    LATE_VIRGIN = "late_virgin"
    """She has been unmated ``days`` days; from ``about`` she is given up."""
    WORKER_BROOD_SEALS = "worker_brood_seals"
    """Her first eggs, seen on ``seen``, show as sealed brood from ``about``."""
    SPOTTY_BROOD = "spotty_brood"
    """The pattern was spotty on ``seen``; look again."""
    LAYING_LONG_ENOUGH = "laying_long_enough"
    """She has laid since ``seen`` and may be taken from ``about``."""
    CELL_WAS_BAD = "cell_was_bad"
    """The cell failed on ``seen``; laying workers are likely from ``about``."""
    QUEEN_LOST = "queen_lost"
    """No queen since ``seen``; laying workers are likely from ``about``."""
    QUEEN_WAS_TAKEN = "queen_was_taken"
    """The queen was taken on ``seen``; the next cell goes in."""
    DRONE_LAYER_SEEN = "drone_layer_seen"
    """Only drone brood on ``seen``: she must go."""
    LAYING_WORKERS_SEEN = "laying_workers_seen"
    """Laying workers on ``seen``: combine or shake out; a new queen is rarely taken."""
    OWN_CELLS_SEEN = "own_cells_seen"
    """Cells of their own on ``seen``."""
    NO_OPEN_BROOD = "no_open_brood"
    """No open brood since ``seen``; laying workers are likely from ``about``."""
    FOOD_LOOK = "food_look"
    """Food was last seen or given on ``seen``, ``days`` days ago."""
    FOOD_LOW = "food_low"
    """Stores on ``seen`` were under the least a unit may have."""
    FOOD_RUNS_LOW = "food_runs_low"
    """Reckoned from ``seen``, stores fall under the least a unit may have on ``about``."""
    FEW_BEES = "few_bees"
    """Made up on ``seen`` with too few bees for its brood: ``shakes`` of nurse bees are wanted."""
    BEES_RUN_SHORT = "bees_run_short"
    """Reckoned from ``seen``, the bees become too few on ``about``."""
    TOO_WEAK = "too_weak"
    """No queen since ``seen``, and too few bees to wait for another."""
    TRAP_FULL = "trap_full"
    """The trap was last serviced on ``seen``, ``days`` days ago."""
    MANY_BEETLES = "many_beetles"
    """The trap held ``beetles`` beetles on ``seen``: look for their larvae and slime."""
    BEETLES_RISE = "beetles_rise"
    """The trap held ``beetles`` beetles on ``seen``, clearly more than at the service before."""
    ROBBED = "robbed"
    """Robbed on ``seen``: look for damage and food."""
    PUT_OFF = "put_off"
    """Put off by the keeper until ``about``."""


class Why(NamedTuple):
    """A cause with the dates, days and amounts its sentence needs.

    ``dose`` is what to feed; ``dearth`` tells that robbers are about while it is fed. Checks and
    their causes are tuples, because a crew's calendar has thousands of them, and a frozen
    dataclass of so many fields is made in three times the time.
    """

    cause: Cause
    seen: date | None = None
    about: date | None = None
    days: int | None = None
    dose: Dose | None = None
    dearth: bool = False
    shakes: int | None = None
    beetles: int | None = None


class Check(NamedTuple):
    """Something due at a unit or batch, or a rest.

    Attributes:
        place: the unit or batch.
        kind: what to look for or do. ``rest`` is a span in which the unit is not opened.
        not_before: first local date on which it may be done; first day of a rest.
        best: the date on which it most likely pays; None for a rest.
        by: last useful local date; last day of a rest; None when it stays open.
        why: the cause.
        follows: the check that must be answered first; until then this one is only foreseen.

    """

    place: Place
    kind: CheckKind
    not_before: date
    best: date | None
    by: date | None
    why: Why
    follows: CheckKind | None = None


_RANK = {kind: rank for rank, kind in enumerate(CheckKind)}


def in_order(checks: Iterable[Check]) -> tuple[Check, ...]:
    """Sort by the best date (a rest by its first day), then as the kinds of check stand."""
    return tuple(sorted(checks, key=_key))


def _key(check: Check) -> tuple[date, int]:
    return (check.best or check.not_before, _RANK[check.kind])


def due(
    state: UnitState, kind: CheckKind, window: Window, why: Why, follows: CheckKind | None = None
) -> Check:
    """Make a check of a unit, later if it was put off."""
    check = Check(state.place, kind, window.not_before, window.best, window.by, why, follows)
    return put_off(check, state.put_offs) if state.put_offs else check


def put_off(check: Check, put_offs: tuple[PutOff, ...]) -> Check:
    """Move the check to the date it was put off to, if that is later than its best date."""
    if not put_offs:
        return check
    until = max((p.until for p in put_offs if p.check is check.kind), default=None)
    if until is None or check.best is None or until <= check.best:
        return check
    by = max(check.by, until) if check.by is not None else None
    not_before = max(check.not_before, until)
    why = Why(Cause.PUT_OFF, seen=check.why.seen, about=until)
    return Check(check.place, check.kind, not_before, until, by, why, check.follows)


def expired(check: Check, day: date) -> bool:
    """Tell whether the check is not asked for any more on ``day``."""
    last = last_useful(check)
    return last is not None and last < day


def last_useful(check: Check) -> date | None:
    """Give the day after which the check expires, None where it stays due until answered.

    An unopened unit is left alone once the virgin nears her first flights; a batch is over when
    its latest queen is out; bees that were to save a unit's brood come too late for it.
    """
    if CHECK_FACTS[check.kind].lapses:
        return check.by
    if check.kind is CheckKind.CELLS_RIPE and check.why.seen is not None:
        return max(table.EMERGENCE_FROM_GRAFT.window(check.why.seen).by, check.by or date.min)
    if check.why.cause is Cause.FEW_BEES and check.why.seen is not None:
        return table.BEES_TOO_LATE.after(check.why.seen)
    return None
