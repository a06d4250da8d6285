"""The bees, brood and stores of units, reckoned before the checks that rest on them."""

from dataclasses import dataclass

from scheduling.checks.queen_dates import QueenDates
from scheduling.colony.account import Account, accounted
from scheduling.colony.food_reserve import FoodReserve, food_reserve, food_seen
from scheduling.colony.forage import ForageWords, forage_words
from scheduling.colony.unit_make_up import plan_of


@dataclass(frozen=True, slots=True)
class Colony:
    """What is reckoned of one unit's colony.

    Attributes:
        account: bees and brood; None where no make-up was told.
        food: its reserve of food; None where they are not known.
        forage: what the keeper said of flow and dearth.

    """

    account: Account | None
    food: FoodReserve | None
    forage: ForageWords


def colony_of(queen: QueenDates) -> Colony:
    """Reckon the colony of one unit."""
    state = queen.state
    plan, told = plan_of(state.entries, queen.expected_eggs), food_seen(state.entries)
    account = accounted(plan) if plan is not None else None
    forage, kept_in = forage_words(state.entries), state.days_not_flying
    food = food_reserve(told, account, forage, kept_in) if told is not None else None
    return Colony(account, food, forage)
