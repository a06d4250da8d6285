"""Bees for a unit that has too few for its brood, or will have before its own come."""

from datetime import date

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why, due
from scheduling.checks.queen_dates import BEFORE_LAYING
from scheduling.colony.account import Account
from scheduling.colony.bees_enough import brood_by, shakes_short, too_few_from
from scheduling.colony.projection import SEALED
from scheduling.colony.unit_make_up import strength_told
from scheduling.trade import table
from scheduling.trade.window import Window
from scheduling.units.state import Stage, UnitState

_WITH_QUEEN = BEFORE_LAYING | {Stage.LAYING, Stage.PROVEN}


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
    if too_few is None or state.stage not in _WITH_QUEEN:
        return ()
    why = Why(Cause.BEES_RUN_SHORT, seen=account.made_up_on, about=too_few)
    best = max(brood_by(too_few), account.made_up_on, *_given_is_out(account))
    return (due(state, CheckKind.BOOST, Window(best, best, max(best, too_few)), why),)


def _given_is_out(account: Account) -> list[date]:
    """Give the days on which brood given before is all out; until then no more is asked for."""
    given = [added.day for added in account.added if added.stock.sealed_cells]
    return [account.on(day + SEALED) for day in given]
