"""Everything due at one unit, and its rests."""

from scheduling.checks.around_rests import around_rests
from scheduling.checks.beetles import beetles
from scheduling.checks.brood import brood
from scheduling.checks.check import Check
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
ABOUT_THE_COLONY = (food, beetles, strength)


def checks_for_unit(state: UnitState) -> tuple[Check, ...]:
    """Work out what is due at a unit and when it rests, earliest first.

    What depends on the answer to an earlier check names it under ``follows``: it is foreseen,
    not due.
    """
    if state.stage in {Stage.EMPTY, Stage.ENDED}:
        return ()
    queen = tuple(check for rule in ABOUT_THE_QUEEN for check in rule(state))
    resting = rests(state, queen)
    looks = tuple(check.best for check in queen if check.best is not None and not check.follows)
    colony = tuple(
        around_rests(check, resting, looks, state.looked_on)
        for rule in ABOUT_THE_COLONY
        for check in rule(state)
        if check.kind not in {each.kind for each in queen}
    )
    return in_order((*queen, *resting, *colony))
