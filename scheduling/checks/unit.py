"""Everything due at one unit, and its rests."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from scheduling.checks.around_rests import around_rests
from scheduling.checks.beetles import beetles
from scheduling.checks.brood import brood
from scheduling.checks.check import Check
from scheduling.checks.colonies import Colony, colony_of, expected_eggs
from scheduling.checks.emergence import emergence
from scheduling.checks.food import food
from scheduling.checks.giving_up import giving_up
from scheduling.checks.in_order import in_order
from scheduling.checks.laying import laying
from scheduling.checks.next_round import next_round
from scheduling.checks.release import release
from scheduling.checks.rests import rests
from scheduling.checks.strength import strength
from scheduling.units.state import Stage, UnitState

ABOUT_THE_QUEEN = (emergence, release, laying, giving_up, brood, next_round)
NOT_IN_USE = frozenset({Stage.EMPTY, Stage.ENDED})


@dataclass(frozen=True, slots=True)
class _Queen:
    """What is due for a unit's queen, when the unit rests for her, and when she should lay."""

    checks: tuple[Check, ...]
    resting: tuple[Check, ...]
    eggs: date | None


def checks_for_units(states: Iterable[UnitState]) -> Iterator[tuple[Check, ...]]:
    """Work out what is due at each unit and when it rests, earliest first.

    What depends on the answer to an earlier check names it under ``follows``: it is foreseen,
    not due.
    """
    every = list(states)
    used = [state for state in every if state.stage not in NOT_IN_USE]
    queens = [_about_the_queen(state) for state in used]
    colonies = [colony_of(s, queen.eggs) for s, queen in zip(used, queens, strict=True)]
    found = map(_all_checks, used, queens, colonies)
    return (() if state.stage in NOT_IN_USE else next(found) for state in every)


def _about_the_queen(state: UnitState) -> _Queen:
    checks = tuple([check for rule in ABOUT_THE_QUEEN for check in rule(state)])
    return _Queen(checks, rests(state, checks), expected_eggs(state))


def _all_checks(state: UnitState, queen: _Queen, colony: Colony) -> tuple[Check, ...]:
    kinds = {check.kind for check in queen.checks}
    work = _about_the_colony(state, queen.eggs, colony)
    others = (*queen.checks, *queen.resting)
    moved = around_rests([c for c in work if c.kind not in kinds], others, state.looked_on)
    return in_order((*others, *moved))


def _about_the_colony(state: UnitState, eggs: date | None, colony: Colony) -> tuple[Check, ...]:
    return (
        *food(state, colony.food, colony.forage),
        *beetles(state),
        *strength(state, colony.account, eggs),
    )
