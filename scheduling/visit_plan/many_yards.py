"""The best visits of several yards together: they share the days of driving, and their limit."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from scheduling.visit_plan.legs import Route
from scheduling.visit_plan.one_yard import fewest
from scheduling.visit_plan.shared_days import Columns, lay_columns, rows
from scheduling.visit_plan.solver import Sum, minimise_in_turn


@dataclass(frozen=True)
class Chosen:
    """The dates on which each yard is visited, and how sure it is that no choice is better.

    Attributes:
        days: the dates for each yard, earliest first.
        exact: proven to be the best in all that is aimed at.

    """

    days: Mapping[str, tuple[date, ...]]
    exact: bool


def choose_together(routes: Mapping[str, Route], yards_a_day: int | None) -> Chosen:
    """Choose the visits of all yards at once.

    In turn: as few errands missed as the limit allows (none without a limit), as few visits, as
    few days on which anybody drives, as much worth as can be.

    Where the limit lets every yard have as few visits as it would have by itself, nothing is
    missed and there cannot be fewer visits, so the yards have only to agree on the days. That is
    tried first, since it is much the smaller program.
    """
    agreed = _choose({yard: fewest(route) for yard, route in routes.items()}, yards_a_day)
    if agreed is not None:
        return agreed
    crowded = _choose(routes, yards_a_day, crowded=True)
    assert crowded is not None  # noqa: S101 - going nowhere keeps every limit
    return crowded


def _choose(
    routes: Mapping[str, Route], yards_a_day: int | None, *, crowded: bool = False
) -> Chosen | None:
    columns = lay_columns(routes)
    solved = minimise_in_turn(
        columns.whole(),
        rows(routes, columns, yards_a_day),
        _aims(columns, crowded=crowded),
        _nowhere(routes, columns) if crowded else frozenset(),
    )
    if solved is None:
        return None
    days = {yard: _visited(yard, route, columns, solved.values) for yard, route in routes.items()}
    return Chosen(days, solved.exact)


def _nowhere(routes: Mapping[str, Route], columns: Columns) -> frozenset[int]:
    """Each yard's leg from the beginning of the plan to its end."""
    return frozenset(
        column
        for (yard, leg), column in columns.legs.items()
        if (leg.start, leg.end) == (0, len(routes[yard].stops) + 1)
    )


def _aims(columns: Columns, *, crowded: bool) -> list[list[Sum]]:
    """Errands missed, visits, days of driving; then worth lost.

    Nothing is missed and no yard has a visit too many where it is not crowded.
    """
    missed = {column: leg.missed for (_, leg), column in columns.legs.items() if leg.missed}
    visits = dict.fromkeys(columns.visits.values(), 1)
    drives = dict.fromkeys(columns.drives.values(), 1)
    worth_lost = {column: -leg.worth for (_, leg), column in columns.legs.items()}
    return [[missed, visits, drives] if crowded else [drives], [worth_lost]]


def _visited(
    yard: str, route: Route, columns: Columns, values: tuple[float, ...]
) -> tuple[date, ...]:
    numbered = enumerate(route.stops, start=1)
    return tuple(day for n, day in numbered if round(values[columns.visits[yard, n]]))
