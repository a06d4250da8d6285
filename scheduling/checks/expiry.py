"""Checks that are of no use any more once their time is over."""

from datetime import date

from scheduling.check_kinds import CHECK_FACTS, CheckKind
from scheduling.checks.check import Cause, Check
from scheduling.trade import table


def expired(check: Check, day: date) -> bool:
    """Tell whether the check is not asked for any more on ``day``."""
    last = last_useful(check)
    return last is not None and last < day


def last_useful(check: Check) -> date | None:
    """Give the day after which the check expires, None where it stays due until answered.

    An unopened unit is left alone once the virgin nears her first flights; a batch is over when
    its latest queen is out; bees that were to save a unit's brood come too late for it.
    """
    if CHECK_FACTS[check.kind].lapses:
        return check.by
    if check.kind is CheckKind.CELLS_RIPE and check.why.seen is not None:
        return max(table.EMERGENCE_FROM_GRAFT.window(check.why.seen).by, check.by or date.min)
    if check.why.cause is Cause.FEW_BEES and check.why.seen is not None:
        return table.BEES_TOO_LATE.after(check.why.seen)
    return None
