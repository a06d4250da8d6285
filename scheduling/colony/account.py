"""A unit's account of bees and brood, by date, from its entries."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.colony.projection import Projection, project
from scheduling.colony.stock import Stock
from scheduling.colony.unit_make_up import Added, Laying, Plan, plan_of
from scheduling.entries import Entry
from scheduling.trade import table
from scheduling.trade.window import days_after
from scheduling.values import MakeUp

HOLDS = table.ACCOUNT_HOLDS.days
"""Days from make-up on for which an account is kept."""


@dataclass(frozen=True, slots=True)
class Account:
    """Bees and brood of one unit by the yard's local date.

    Attributes:
        made_up_on: the day of make-up, on which the account begins.
        told: what the keeper told of the make-up.
        stock: what that comes to.
        projection: bees and brood by day.
        layings: when queens laid or are expected to lay, in days from make-up.
        added: what was given to the unit since.

    """

    made_up_on: date
    told: MakeUp
    stock: Stock
    projection: Projection
    layings: tuple[Laying, ...] = ()
    added: tuple[Added, ...] = ()

    @property
    def last(self) -> date:
        """The last date for which the account holds."""
        return days_after(self.made_up_on, len(self.projection.bees) - 1)

    def day(self, on: date) -> int:
        """Give the day of the projection for a date."""
        return (on - self.made_up_on).days

    def on(self, day: int) -> date:
        """Give the date of a day of the projection."""
        return days_after(self.made_up_on, day)

    def bees(self, on: date) -> float:
        """Give the bees on a date on which the account holds."""
        return self.projection.bees[self.day(on)]


def account_of(entries: Sequence[Entry], expected_eggs: date | None = None) -> Account | None:
    """Work out the account from the last make-up on; None where no make-up was told.

    ``entries`` are the unit's standing entries, oldest first; ``expected_eggs`` the day on which
    a queen that was not seen to lay yet should begin.
    """
    plan = plan_of(entries, expected_eggs)
    return accounted(plan) if plan is not None else None


def accounted(plan: Plan) -> Account:
    """Give the account of a unit with that plan."""
    found = project(plan.stock, plan.layings, plan.added, HOLDS)
    return Account(plan.made_up_on, plan.told, plan.stock, found, plan.layings, plan.added)
