"""A day's plan laid out by yard, for one reader."""

from collections.abc import Iterable, Mapping, Sequence

from bot.wording.groups import YardDay
from scheduling.checks.check import Check
from scheduling.places import UnitName
from scheduling.visits import DayPlan
from scheduling.weather.warnings import NO_WARNINGS, Warnings


def yard_days(
    plan: DayPlan,
    units: Mapping[str, Sequence[UnitName]],
    taken: Mapping[str, str] | None = None,
    reader: str = "",
    warnings: Mapping[str, Warnings] | None = None,
) -> tuple[YardDay, ...]:
    """Lay a plan out by yard, in the order of ``units`` and then by name.

    ``units`` are the units of each of the reader's yards; ``taken`` tells who took which yard
    on for the day. A yard that the reader took is the reader's own. ``warnings`` are of each
    yard's weather.
    """
    due, rests = _by_yard(item.check for item in plan.due), _by_yard(plan.rests)
    waiting = (item.check.place.yard for item in plan.waiting)
    names = dict.fromkeys([*units, *sorted(due), *waiting])
    holders, said = taken or {}, warnings or {}
    return tuple(
        YardDay(
            yard,
            due=tuple(due.get(yard, ())),
            rests=tuple(rests.get(yard, ())),
            units=tuple(units.get(yard, ())),
            taken_by=None if holders.get(yard) == reader else holders.get(yard),
            waiting=tuple(item for item in plan.waiting if item.check.place.yard == yard),
            warnings=said.get(yard, NO_WARNINGS),
        )
        for yard in names
    )


def _by_yard(checks: Iterable[Check]) -> dict[str, list[Check]]:
    found: dict[str, list[Check]] = {}
    for check in checks:
        found.setdefault(check.place.yard, []).append(check)
    return found
