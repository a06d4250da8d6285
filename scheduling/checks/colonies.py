"""The bees, brood and stores of units, reckoned before the checks that rest on them."""

from dataclasses import dataclass
from datetime import date

from scheduling.checks.queen_dates import QueenDates
from scheduling.colony.account import Account, account_of
from scheduling.colony.food_reserve import FoodReserve, FoodSeen, food_reserve, food_seen
from scheduling.colony.forage import ForageWords, forage_words


@dataclass(frozen=True, slots=True)
class Colony:
    """What is known of one unit's colony.

    Attributes:
        account: bees and brood; None where no make-up was told.
        food: the stores last seen and what was fed since; None where they are not known.
        forage: what the keeper said of flow and dearth.
        kept_in: the days on which, by the keeper's word, the bees did not fly.

    """

    account: Account | None
    food: FoodSeen | None
    forage: ForageWords
    kept_in: tuple[date, ...]

    def food_until(self, day: date) -> FoodReserve | None:
        """Reckon its reserve of food up to a day; None where its stores are not known."""
        if self.food is None:
            return None
        return food_reserve(self.food, self.account, self.forage, self.kept_in, day)


def colony_of(queen: QueenDates) -> Colony:
    """Reckon the colony of one unit."""
    state, account = queen.state, account_of(queen.state.entries, queen.expected_eggs)
    told, forage = food_seen(state.entries), forage_words(state.entries)
    return Colony(account, told, forage, state.days_not_flying)
