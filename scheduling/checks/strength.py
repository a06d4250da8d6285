"""Bees for a unit that has too few for its brood, or will have before its own come."""

from datetime import date

from scheduling.checks.check import Cause, Check, CheckKind, Why
from scheduling.checks.due import due
from scheduling.checks.laying import BEFORE_LAYING, laying_look
from scheduling.checks.remembered import remembered
from scheduling.colony.account import Account, account_of, strength_told
from scheduling.colony.course import SEALED
from scheduling.colony.strength import brood_by, shakes_short, too_few_from
from scheduling.trade import table
from scheduling.trade.window import Window
from scheduling.units.state import Stage, UnitState

_WITH_QUEEN = BEFORE_LAYING | {Stage.LAYING, Stage.PROVEN}


def strength(state: UnitState) -> tuple[Check, ...]:
    """Add nurse bees at once, or give brood in time, where the make-up told of bees or brood."""
    if not strength_told(state.entries):
        return ()
    account = account_of_unit(state)
    assert account is not None  # noqa: S101 - its make-up was told
    short = shakes_short(account)
    if short:
        why = Why(Cause.FEW_BEES, seen=account.made_up_on, shakes=short)
        return (due(state, CheckKind.BOOST, table.BEES_AT_ONCE.window(account.made_up_on), why),)
    too_few = too_few_from(account, expected_eggs(state))
    if too_few is None or state.stage not in _WITH_QUEEN:
        return ()
    why = Why(Cause.BEES_RUN_SHORT, seen=account.made_up_on, about=too_few)
    best = max(brood_by(too_few), account.made_up_on, *_given_is_out(account))
    return (due(state, CheckKind.BOOST, Window(best, best, max(best, too_few)), why),)


def _given_is_out(account: Account) -> list[date]:
    """Give the days on which brood given before is all out; until then no more is asked for."""
    given = [added.day for added in account.added if added.stock.sealed_cells]
    return [account.on(day + SEALED) for day in given]


@remembered
def account_of_unit(state: UnitState) -> Account | None:
    """Work out the bees and brood of a unit; its queen lays when eggs are next looked for."""
    return account_of(state.entries, expected_eggs(state))


def expected_eggs(state: UnitState) -> date | None:
    """Give the day on which a queen that was not seen to lay yet should have eggs."""
    if state.eggs_on is not None:
        return None
    look = laying_look(state)
    return look.window.best if look is not None else None
