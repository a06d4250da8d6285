"""The checks of one start event, as a table to read."""

from collections.abc import Iterable
from datetime import date

from bot.wording.check_names import to_do
from bot.wording.days import full_day
from bot.wording.reasons import reason
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Check


def timetable_lines(checks: Iterable[Check], day: date) -> str:
    """A line for each check and rest: when, what, why; ``(then)`` where it follows another."""
    return "\n".join(_line(check, day) for check in checks)


def _line(check: Check, day: date) -> str:
    if check.kind is CheckKind.REST:
        when, best = _span(check.not_before, check.by), ""
    else:
        when = _span(check.not_before, check.by)
        best = "" if check.best is None else f", best {full_day(check.best)}"
    then = "" if check.follows is None else " (then)"
    return f"{when}{best}: {to_do(check.kind, check.why)}{then} - {reason(check.why, day)}"


def _span(first: date, last: date | None) -> str:
    if last is None:
        return f"{full_day(first)} on"
    return full_day(first) if first == last else f"{full_day(first)} to {full_day(last)}"
