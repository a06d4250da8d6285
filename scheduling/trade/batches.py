"""Planning a batch back from the day its queens are wanted."""

from dataclasses import dataclass
from datetime import date
from math import ceil, comb, floor

from scheduling.trade import table
from scheduling.trade.constant import Constant, Window, days_after


@dataclass(frozen=True)
class Chance:
    """How likely something is, at the lowest, the usual and the highest rate of the trade."""

    low: float
    usual: float
    high: float


@dataclass(frozen=True)
class GraftPlan:
    """What to begin when, and how much of it, for so many laying queens by a date.

    Attributes:
        wanted: laying queens wanted.
        wanted_on: the day by which they lay.
        drones: when drone eggs should be laid for the matings; ``best`` is the usual date.
        comb_on: when the breeder queen gets her comb.
        starter_on: when the starter is made.
        graft_on: the graft.
        make_up_on: when the boxes are stocked.
        place_on: when the ripe cells go in.
        look_on: when eggs are looked for.
        larvae: larvae to graft.
        units: ripe cells to place, each in its own unit.
        units_range: units needed at the highest and at the lowest rate of success.
        laying_range: laying queens to be expected of ``units`` at the lowest and highest rate.
        enough: the chance that at least ``wanted`` of ``units`` come to lay.
    """

    wanted: int
    wanted_on: date
    drones: Window
    comb_on: date
    starter_on: date
    graft_on: date
    make_up_on: date
    place_on: date
    look_on: date
    larvae: int
    units: int
    units_range: tuple[int, int]
    laying_range: tuple[int, int]
    enough: Chance


def plan_back(wanted: int, wanted_on: date, units: int | None = None) -> GraftPlan:
    """Plan a batch for so many laying queens by a date.

    ``units`` are the units there are to fill; without it as many as the usual rate asks for.
    Each cell is taken to succeed or fail by itself; a spell of bad weather fails many at once,
    which the range from the lowest to the highest rate stands for.

    Raises:
        ValueError: no queens are wanted, or there are no units.
    """
    if wanted < 1 or (units is not None and units < 1):
        raise ValueError("a plan needs at least one queen and one unit")
    graft_on = days_after(wanted_on, -days_to_lay())
    filled = units if units is not None else cells_for(wanted, table.LAYING_PER_CELL.value)
    rate = table.LAYING_PER_CELL
    return GraftPlan(
        wanted=wanted,
        wanted_on=wanted_on,
        drones=_drones(graft_on),
        comb_on=table.COMB_BEFORE_GRAFT.before(graft_on),
        starter_on=table.STARTER_BEFORE_GRAFT.before(graft_on),
        graft_on=graft_on,
        make_up_on=table.MAKE_UP_FROM_GRAFT.after(graft_on),
        place_on=table.RIPE_LOOK_FROM_GRAFT.after(graft_on),
        look_on=table.LAYING_LOOK_FROM_EMERGENCE.after(table.EMERGENCE_FROM_GRAFT.after(graft_on)),
        larvae=cells_for(filled, table.GRAFTS_ACCEPTED.value),
        units=filled,
        units_range=(cells_for(wanted, rate.high), cells_for(wanted, rate.low)),
        laying_range=(floor(filled * rate.low), floor(filled * rate.high)),
        enough=_chance(wanted, filled, rate),
    )


def days_to_lay() -> int:
    """Days from the graft to the last useful look for eggs, by which her eggs are in."""
    return table.EMERGENCE_FROM_GRAFT.days + int(table.LAYING_LOOK_FROM_EMERGENCE.high)


def cells_for(wanted: int, rate: float) -> int:
    """How many must be begun for ``wanted`` to come through, at that rate."""
    return ceil(round(wanted / rate, 9))


def at_least(wanted: int, tried: int, rate: float) -> float:
    """Chance that at least ``wanted`` of ``tried`` succeed, each by itself at that rate."""
    return sum(
        comb(tried, count) * rate**count * (1 - rate) ** (tried - count)
        for count in range(wanted, tried + 1)
    )


def _chance(wanted: int, tried: int, rate: Constant) -> Chance:
    return Chance(
        at_least(wanted, tried, rate.low),
        at_least(wanted, tried, rate.value),
        at_least(wanted, tried, rate.high),
    )


def _drones(graft_on: date) -> Window:
    earliest, latest = table.DRONES_BEFORE_GRAFT.high, table.DRONES_BEFORE_GRAFT.low
    return Window(
        days_after(graft_on, -int(earliest)),
        table.DRONES_BEFORE_GRAFT.before(graft_on),
        days_after(graft_on, -int(latest)),
    )
