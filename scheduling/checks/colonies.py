"""The bees, brood and stores of units, reckoned before the checks that rest on them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from scheduling.checks.laying import laying_look
from scheduling.colony.account import Account, accounted
from scheduling.colony.forage import ForageWords, forage_words
from scheduling.colony.larder import Larder, Pantry, Provisions, pantry_of, provisions, stored
from scheduling.colony.plan import Plan, plan_of
from scheduling.quickly_made import quickly_made
from scheduling.units.state import UnitState

if TYPE_CHECKING:
    from scheduling.colony.courses import Courses

FEW = 16
"""Up to so many units are reckoned one by one: for those loading and filling arrays costs more."""


@quickly_made
@dataclass(frozen=True, slots=True)
class Colony:
    """What is reckoned of one unit's colony.

    Attributes:
        account: bees and brood; None where no make-up was told.
        larder: stores; None where they are not known.
        forage: what the keeper said of flow and dearth.

    """

    account: Account | None
    larder: Larder | None
    forage: ForageWords


def expected_eggs(state: UnitState) -> date | None:
    """Give the day on which a queen that was not seen to lay yet should have eggs."""
    if state.eggs_on is not None:
        return None
    look = laying_look(state)
    return look.window.best if look is not None else None


def colonies_of(states: Sequence[UnitState], eggs: Sequence[date | None]) -> list[Colony]:
    """Reckon the colony of each unit; ``eggs`` are the days of ``expected_eggs``."""
    if len(states) > FEW:
        return many_colonies(states, eggs)
    return [colony_of(state, expected) for state, expected in zip(states, eggs, strict=True)]


def colony_of(state: UnitState, eggs: date | None) -> Colony:
    """Reckon the colony of one unit."""
    plan, told = plan_of(state.entries, eggs), provisions(state.entries)
    account = accounted(plan) if plan is not None else None
    forage, kept_in = forage_words(state.entries), frozenset(state.days_not_flying)
    larder = stored(told, account, forage, kept_in) if told is not None else None
    return Colony(account, larder, forage)


def many_colonies(states: Sequence[UnitState], eggs: Sequence[date | None]) -> list[Colony]:
    """Reckon the colonies of many units together, with the same outcome as one by one."""
    from scheduling.colony.courses import walk_many

    each = (plan_of(state.entries, day) for state, day in zip(states, eggs, strict=True))
    plans = {number: plan for number, plan in enumerate(each) if plan is not None}
    courses = walk_many(plans.values())
    accounts = dict(zip(plans, map(accounted, plans.values(), courses.each()), strict=True))
    forage = [forage_words(state.entries) for state in states]
    larders = _larders(states, plans, forage, courses)
    return [Colony(accounts.get(n), larders.get(n), words) for n, words in enumerate(forage)]


def _larders(
    states: Sequence[UnitState],
    plans: Mapping[int, Plan],
    forage: Sequence[ForageWords],
    courses: "Courses",
) -> dict[int, Larder]:
    """Give the larders, by the number of the unit, of those whose stores are known."""
    from scheduling.colony.larders import stored_many

    each = (provisions(state.entries) for state in states)
    told = {number: known for number, known in enumerate(each) if known is not None}
    pantries = [_pantry(states[n], known, plans.get(n), forage[n]) for n, known in told.items()]
    walks = dict(zip(plans, courses.walks, strict=True))
    left = stored_many(pantries, courses, [walks.get(number) for number in told])
    seen_on = (known.seen_on for known in told.values())
    return dict(zip(told, map(Larder, seen_on, left), strict=True))


def _pantry(state: UnitState, told: Provisions, plan: Plan | None, forage: ForageWords) -> Pantry:
    account_from = plan.made_up_on if plan is not None else None
    return pantry_of(told, account_from, forage, state.days_not_flying)
