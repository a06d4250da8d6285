"""Everything due at one unit, and its rests."""

from collections.abc import Mapping
from datetime import date

from scheduling.checks.around_rests import around_rests
from scheduling.checks.beetles import beetles
from scheduling.checks.brood import brood
from scheduling.checks.check import Check, in_order
from scheduling.checks.colonies import colony_of
from scheduling.checks.emergence import emergence
from scheduling.checks.food import food
from scheduling.checks.giving_up import giving_up
from scheduling.checks.laying import laying
from scheduling.checks.next_round import next_round
from scheduling.checks.queen_dates import QueenDates
from scheduling.checks.release import release
from scheduling.checks.rests import rests
from scheduling.checks.strength import strength
from scheduling.checks.traps_by_warmth import traps_by_warmth
from scheduling.units.state import Stage
from scheduling.weather.day import DayOfWeather

NOT_IN_USE = frozenset({Stage.EMPTY, Stage.ENDED})


def checks_of_unit(
    queen: QueenDates, days: Mapping[date, DayOfWeather], feeder_litres: float
) -> tuple[Check, ...]:
    """Work out what is due at a unit and when it rests, earliest first.

    What depends on the answer to an earlier check names it under ``follows``: it is foreseen,
    not due.

    Args:
        queen: what the unit is, and the dates of its queen.
        days: the weather of its yard by local date.
        feeder_litres: what one of the keeper's feeders holds.

    """
    if queen.state.stage in NOT_IN_USE:
        return ()
    looks = _about_the_queen(queen)
    kinds = {check.kind for check in looks}
    others = (*looks, *rests(queen, looks))
    work = [c for c in _about_the_colony(queen, feeder_litres) if c.kind not in kinds]
    looked_on = queen.state.looked_on
    checks = in_order((*others, *around_rests(work, others, looked_on)))
    return traps_by_warmth(checks, days, looked_on) if days else checks


def _about_the_queen(queen: QueenDates) -> tuple[Check, ...]:
    state = queen.state
    return (
        *emergence(state),
        *release(state),
        *laying(queen),
        *giving_up(queen),
        *brood(queen),
        *next_round(state),
    )


def _about_the_colony(queen: QueenDates, feeder_litres: float) -> tuple[Check, ...]:
    colony = colony_of(queen)
    return (
        *food(queen.state, colony, feeder_litres),
        *beetles(queen.state),
        *strength(queen.state, colony.account, queen.expected_eggs),
    )
