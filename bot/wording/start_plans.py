"""Plans of one start: a graft planned back from its queens, and a timetable of what follows."""

from collections.abc import Iterable
from datetime import date

from bot.wording.check_names import to_do
from bot.wording.days_and_numbers import counted, day_words, full_day, percent
from bot.wording.plain_letters import to_gsm7
from bot.wording.reasons import reason
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Check
from scheduling.trade.batches import GraftPlan


def graft_plan(plan: GraftPlan, today: date) -> str:
    """When to begin what, how much of it, and how sure the number is."""
    low, high = plan.laying_range
    lines = [
        f"{counted(plan.wanted, 'laying queen', 'laying queens')} by {full_day(plan.wanted_on)}:",
        f"Graft {plan.larvae} larvae {_when(plan.graft_on, today)}",
        f"Drone eggs by {_when(plan.drones.best, today)}, starter {full_day(plan.starter_on)}",
        f"Make up {counted(plan.units, 'unit', 'units')} {full_day(plan.make_up_on)}, "
        f"cells in {full_day(plan.place_on)}, look for eggs {full_day(plan.look_on)}",
        f"Expect {low} to {high} laying; chance of {plan.wanted} or more "
        f"{percent(plan.enough.usual)} ({percent(plan.enough.low)} in a bad spell).",
        *_too_late(plan, today),
    ]
    return to_gsm7("\n".join(lines))


def how_many(on: date | None) -> str:
    """Ask for the number of queens, which a plan needs beside the day."""
    day = f"{on.day} {on:%B}".lower() if on else "10 june"
    asked = f"How many laying queens by {full_day(on)}?" if on else "Say how many and by when."
    return f"{asked} Type for example: plan 12 queens by {day}"


def _when(day: date, today: date) -> str:
    return day_words(day, today) if day >= today else f"{full_day(day)} (past)"


def _too_late(plan: GraftPlan, today: date) -> list[str]:
    late = (today - plan.graft_on).days
    if late <= 0:
        return []
    days = counted(late, "day", "days")
    return [f"That graft is {days} too late: graft today for queens {days} later, or place cells."]


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
