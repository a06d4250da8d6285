"""A unit's bees: how many they become, what they are good for, and when it wants more."""

from dataclasses import dataclass
from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due
from scheduling.checks.next_round import laying_workers_likely, queenless_since, verdict_on
from scheduling.checks.queen_dates import QUEENLESS, WITH_QUEEN, QueenDates
from scheduling.colony.account import SEALED, Account, account_of
from scheduling.colony.bees_enough import (
    AnotherRound,
    LowPoint,
    brood_by,
    low_point,
    shakes_short,
    too_few_from,
)
from scheduling.colony.food_reserve import (
    FoodReserve,
    FoodSeen,
    ForageWords,
    food_reserve,
    food_seen,
    forage_words,
)
from scheduling.colony.unit_make_up import strength_told
from scheduling.trade import table
from scheduling.trade.constant import Window
from scheduling.units.state import Stage, UnitState


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


def strength(
    state: UnitState, account: Account | None, expected_eggs: date | None
) -> tuple[Check, ...]:
    """Add nurse bees at once, or give brood in time, where the make-up told of bees or brood."""
    if account is None or not strength_told(account.told):
        return ()
    short = shakes_short(account)
    if short:
        why = Why(Cause.FEW_BEES, seen=account.made_up_on, shakes=short)
        return (due(state, CheckKind.BOOST, table.BEES_AT_ONCE.window(account.made_up_on), why),)
    too_few = too_few_from(account, expected_eggs)
    if too_few is None or state.stage not in WITH_QUEEN:
        return ()
    why = Why(Cause.BEES_RUN_SHORT, seen=account.made_up_on, about=too_few)
    best = max(brood_by(too_few), account.made_up_on, *_given_is_out(account))
    return (due(state, CheckKind.BOOST, Window(best, best, max(best, too_few)), why),)


def _given_is_out(account: Account) -> list[date]:
    """Give the days on which brood given before is all out; until then no more is asked for."""
    given = [added.day for added in account.added if added.stock.sealed_cells]
    return [account.on(day + SEALED) for day in given]


@dataclass(frozen=True)
class BeesAhead:
    """What the account of a unit says.

    Attributes:
        low: its fewest bees, and when; None where it has no queen whose bees could follow.
        too_few_from: the date from which they cannot hold their own; None for never.
        brood_by: the date by which brood must be given so that they can.
        laying_workers_from: from when laying workers are likely; None with a queen.
        another_round: what a unit without a queen is still worth; None with one.

    """

    low: LowPoint | None = None
    too_few_from: date | None = None
    brood_by: date | None = None
    laying_workers_from: date | None = None
    another_round: AnotherRound | None = None


def bees_ahead(queen: QueenDates) -> BeesAhead | None:
    """Give what is ahead; None where nothing was told of the bees and brood it was made of."""
    state = queen.state
    if state.stage in QUEENLESS:
        return _without_queen(state)
    if state.stage in {Stage.EMPTY, Stage.ENDED}:
        return None
    eggs, account = queen.expected_eggs, colony_of(queen).account
    if account is None or not strength_told(account.told):
        return None
    too_few = too_few_from(account, eggs)
    by = brood_by(too_few) if too_few is not None else None
    return BeesAhead(low_point(account, eggs), too_few, by)


def _without_queen(state: UnitState) -> BeesAhead | None:
    since = queenless_since(state)
    verdict = verdict_on(state, since) if since is not None else None
    if verdict is None:
        return None
    return BeesAhead(laying_workers_from=laying_workers_likely(state), another_round=verdict)
