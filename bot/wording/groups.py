"""Checks of a day laid out by yard, and drawn together where the same is to be done."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import IntEnum

from bot.wording.check_names import replies_to, to_do
from bot.wording.reasons import reason
from scheduling.check_kinds import CHECK_FACTS, UPKEEP, CheckKind
from scheduling.checks.check import Check
from scheduling.places import Place, UnitName
from scheduling.visits import DayPlan, Waiting
from scheduling.weather.yard_weather import NO_WARNINGS, Warnings


class Detail(IntEnum):
    """How much is said when room is short."""

    FULL = 0
    """One line for each thing to do and each reason."""
    WORK = 1
    """The same without the reasons for food and traps."""
    BRIEF = 2
    """One line for each thing to do; the reason only where all have the same."""
    BARE = 3
    """One line for each thing to do, no reasons."""
    LEAST = 4
    """The same, and of several ends of rest only the first."""


@dataclass(frozen=True)
class YardDay:
    """A yard on a day: what is due there and what must be left alone.

    Attributes:
        yard: the yard's name.
        due: checks due or overdue that day.
        rests: rests in force that day.
        units: every unit of the yard, for the short form of names.
        taken_by: who has taken the yard on for the day, if it is somebody else.
        waiting: checks that are due and wait for better weather.
        warnings: what is to be said of the weather.
    """

    yard: str
    due: tuple[Check, ...]
    rests: tuple[Check, ...] = ()
    units: tuple[UnitName, ...] = ()
    taken_by: str | None = None
    waiting: tuple[Waiting, ...] = ()
    warnings: Warnings = NO_WARNINGS


@dataclass(frozen=True)
class Group:
    """Places at which the same is to be done, and what may be answered to it."""

    kind: CheckKind
    label: str
    why: str
    late: bool
    places: tuple[Place, ...]
    replies: tuple[str, ...] = ()


ORDER = tuple(CHECK_FACTS)
"""The order in which a keeper is told; what is late comes before all of it."""


def is_late(check: Check, day: date) -> bool:
    """Tell whether the last useful date of the check has gone by."""
    return check.by is not None and check.by < day


def groups(yard_day: YardDay, day: date, detail: Detail) -> tuple[Group, ...]:
    """Draw the due checks of a yard together, late ones first, then in ``ORDER``."""
    detail = min(detail, Detail.BARE)
    resting = {rest.place for rest in yard_day.rests}
    found: dict[tuple[bool, int, str, str], list[tuple[Check, str]]] = {}
    for check in sorted(yard_day.due, key=lambda each: each.place.unit or UnitName(0)):
        label = _label(check, resting)
        why = _why(check, day, detail)
        apart = why if detail in (Detail.FULL, Detail.WORK) else ""
        key = (not is_late(check, day), ORDER.index(check.kind), label, apart)
        found.setdefault(key, []).append((check, why))
    return tuple(
        _group(label, not on_time, members)
        for (on_time, _, label, _), members in sorted(found.items(), key=lambda item: item[0][:3])
    )


def _why(check: Check, day: date, detail: Detail) -> str:
    if detail >= Detail.BARE or (detail is not Detail.FULL and check.kind in UPKEEP):
        return ""
    return reason(check.why, day)


def _group(label: str, late: bool, members: Iterable[tuple[Check, str]]) -> Group:
    checks, whys = zip(*members, strict=True)
    why = whys[0] if len(set(whys)) == 1 else ""
    places = tuple(dict.fromkeys(check.place for check in checks))
    replies = replies_to(checks[0].kind, checks[0].why.cause)
    return Group(checks[0].kind, label, why, late, places, replies)


def _label(check: Check, resting: set[Place]) -> str:
    label = to_do(check.kind, check.why)
    if check.kind is CheckKind.FEED and check.place in resting:
        return f"{label} (lid only)"
    return label


def lay_out_by_yard(
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
