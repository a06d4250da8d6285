"""Errands told in days of May 2027, and every plan there could be, tried one by one."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from itertools import chain, combinations, product

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.places import Place, UnitName
from scheduling.visit_plan import Drives, VisitPlan
from scheduling.visit_plan.errands import Errand
from scheduling.visit_plan.worth import closeness
from tests.scheduling.story import may

FIRST = may(1)
Days = tuple[date, ...]


def check(not_before: int, best: int, by: int, unit: str = "1a", yard: str = "river") -> Check:
    """A look for eggs between two days of May."""
    place = Place(yard, UnitName.parse(unit))
    why = Why(Cause.EGGS_EXPECTED, about=may(best))
    return Check(place, CheckKind.LAYING, may(not_before), may(best), may(by), why)


def errand(
    not_before: int, best: int, by: int, unit: str = "1a", yard: str = "river", must: bool = True
) -> Errand:
    """The same as an errand, every day of the window open."""
    asked = check(not_before, best, by, unit, yard)
    days = tuple(may(number) for number in range(not_before, by + 1))
    return Errand(asked, days, tuple(closeness(asked, day) for day in days), must)


def shown(plan: VisitPlan) -> list[tuple[int, str, str]]:
    """Each visit as its day of May, its yard, and its units."""
    return [
        (visit.day.day, visit.yard, " ".join(str(check.place.unit) for check in visit.checks))
        for visit in plan.visits
    ]


Sums = tuple[int, int, int, int]
"""Errands missed, visits, days of driving, and worth in thousandths as a negative number."""


def sums_of(errands: Sequence[Errand], visited: Mapping[str, Iterable[date]]) -> Sums:
    """What a choice of days comes to, counted afresh."""
    days = {yard: frozenset(chosen) for yard, chosen in visited.items()}
    missed = worth = 0
    for each in errands:
        served = [each.worth(day) for day in each.days if day in days.get(each.yard, ())]
        missed += each.must and not served
        worth += max(served, default=0)
    drives = frozenset().union(*days.values()) if days else frozenset()
    return missed, sum(map(len, days.values())), len(drives), -worth


def sums_of_plan(errands: Sequence[Errand], plan: VisitPlan) -> Sums:
    visited: dict[str, list[date]] = {}
    for visit in plan.visits:
        visited.setdefault(visit.yard, []).append(visit.day)
    return sums_of(errands, visited)


def best_of_all(errands: Sequence[Errand], drives: Drives) -> Sums:
    """The least sums of all choices of days that keep the limit, each of them tried."""
    yards = sorted({each.yard for each in errands if each.must})
    choices = [list(_subsets(drives.open_days(yard))) for yard in yards]
    plans = (dict(zip(yards, chosen, strict=True)) for chosen in product(*choices))
    return min(sums_of(errands, plan) for plan in plans if _keeps_limit(plan, drives))


def _keeps_limit(plan: Mapping[str, Days], drives: Drives) -> bool:
    driven = list(chain.from_iterable(plan.values()))
    most = drives.yards_a_day
    return most is None or all(driven.count(day) <= most for day in driven)


def _subsets(days: Days) -> Iterator[Days]:
    return chain.from_iterable(combinations(days, count) for count in range(len(days) + 1))
