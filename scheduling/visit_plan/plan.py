"""The plan of the coming days: visits with the checks each serves, and what none serves."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.checks.check import Check
from scheduling.visit_plan.errands import Drives, Errand
from scheduling.visit_plan.one_yard import Chosen, Route, best_stops, route


@dataclass(frozen=True)
class Visit:
    """A yard on a day, with the checks it serves, late ones first."""

    day: date
    yard: str
    checks: tuple[Check, ...]


@dataclass(frozen=True)
class VisitPlan:
    """Which yard on which day.

    Attributes:
        visits: by day, then by yard.
        unserved: checks that should be done within the plan's days and cannot be: no day is
            left for them, or the crew's limit of yards a day leaves no room.
        waiting: checks that may be done but can wait until after the plan.
        exact: proven: no plan is better in visits, days of driving and worth.
    """

    visits: tuple[Visit, ...] = ()
    unserved: tuple[Check, ...] = ()
    waiting: tuple[Check, ...] = ()
    exact: bool = True

    @property
    def drive_days(self) -> tuple[date, ...]:
        """The dates on which anybody drives, earliest first."""
        return tuple(sorted({visit.day for visit in self.visits}))


def plan_visits(errands: Iterable[Errand], drives: Drives) -> VisitPlan:
    """Plan the visits that serve every errand that must be served, where the days allow.

    In turn: the fewest checks unserved, the fewest visits, the fewest days on which anybody
    drives, the highest worth. A check is done at the visit that is worth most to it, at the
    earlier of two equal ones. With one yard this is proven by the method; with several the
    solver proves it unless its bound is met, which ``exact`` then tells.
    """
    by_yard: dict[str, list[Errand]] = defaultdict(list)
    for errand in errands:
        by_yard[errand.yard].append(errand)
    wanted = {yard: here for yard, here in by_yard.items() if _worth_driving(here)}
    chosen = _choose({yard: route(here) for yard, here in wanted.items()}, drives.yards_a_day)
    return _laid_out(by_yard, chosen, drives.first)


def _worth_driving(here: Sequence[Errand]) -> bool:
    return any(errand.must and errand.days for errand in here)


def _choose(routes: Mapping[str, Route], yards_a_day: int | None) -> Chosen:
    if len(routes) > 1:
        # The solver takes longer to load than all the rest of a start, and few crews need it.
        from scheduling.visit_plan.many_yards import choose_together

        return choose_together(routes, yards_a_day)
    days = {yard: tuple(way.stops[n] for n in best_stops(way)) for yard, way in routes.items()}
    return Chosen(days, exact=True)


def _laid_out(by_yard: Mapping[str, Sequence[Errand]], chosen: Chosen, today: date) -> VisitPlan:
    served: dict[tuple[date, str], list[Check]] = defaultdict(list)
    unserved: list[Check] = []
    waiting: list[Check] = []
    for yard in sorted(by_yard):
        for errand in by_yard[yard]:
            day = _served_on(errand, chosen.days.get(yard, ()))
            if day is not None:
                served[day, yard].append(errand.check)
            else:
                (unserved if errand.must else waiting).append(errand.check)
    visits = (Visit(*key, _late_first(served[key], today)) for key in sorted(served))
    return VisitPlan(tuple(visits), tuple(unserved), tuple(waiting), chosen.exact)


def _served_on(errand: Errand, visited: Iterable[date]) -> date | None:
    serving = [day for day in visited if day in errand.days]
    return max(serving, key=errand.worth, default=None)


def _late_first(checks: Iterable[Check], today: date) -> tuple[Check, ...]:
    return tuple(sorted(checks, key=lambda check: check.by is None or check.by >= today))
