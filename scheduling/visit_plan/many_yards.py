"""The best visits of several yards together: they share the days of driving, and their limit."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from scheduling.visit_plan.one_yard import Chosen, Leg, Route, fewest
from scheduling.visit_plan.solver import Row, Sum, minimise_in_turn


@dataclass
class Columns:
    """The numbers of the columns: each visit, each day of driving, and each leg of each yard.

    A yard's legs that are driven make one path from the beginning of the plan to its end, just
    as in the plan of one yard; that the visits are whole makes the path whole.
    """

    visits: dict[tuple[str, int], int] = field(default_factory=dict)
    drives: dict[date, int] = field(default_factory=dict)
    legs: dict[tuple[str, Leg], int] = field(default_factory=dict)

    @property
    def count(self) -> int:
        """How many columns there are."""
        return len(self.visits) + len(self.drives) + len(self.legs)

    def whole(self) -> list[bool]:
        """Which of them are 0 or 1 and nothing between."""
        legs = set(self.legs.values())
        return [column not in legs for column in range(self.count)]


def lay_columns(routes: Mapping[str, Route]) -> Columns:
    """Number the columns of these yards."""
    columns = Columns()
    for yard, route in routes.items():
        for number, stop in enumerate(route.stops, start=1):
            columns.visits[yard, number] = columns.count
            columns.drives.setdefault(stop, columns.count)
        for leg in route.legs:
            columns.legs[yard, leg] = columns.count
    return columns


def rows(routes: Mapping[str, Route], columns: Columns, yards_a_day: int | None) -> list[Row]:
    """Give what every plan keeps to: whole paths, and no more yards in a day than the limit."""
    paths = [row for yard, route in routes.items() for row in _path(yard, route, columns)]
    return [*paths, *_days(routes, columns, yards_a_day)]


def _path(yard: str, route: Route, columns: Columns) -> list[Row]:
    """One leg leaves the beginning; as many come to a stop, and leave it, as it has visits."""
    coming: dict[int, dict[int, int]] = {number: {} for number in range(len(route.stops) + 2)}
    leaving: dict[int, dict[int, int]] = {number: {} for number in range(len(route.stops) + 2)}
    for leg in route.legs:
        column = columns.legs[yard, leg]
        coming[leg.end][column] = 1
        leaving[leg.start][column] = 1
    rows = [Row(1, 1, leaving[0])]
    for number in range(1, len(route.stops) + 1):
        visit = {columns.visits[yard, number]: -1}
        rows += [Row(0, 0, visit | coming[number]), Row(0, 0, visit | leaving[number])]
    return rows


def _days(routes: Mapping[str, Route], columns: Columns, yards_a_day: int | None) -> list[Row]:
    """A yard is visited only on a day of driving; no day has more yards than the limit."""
    rows: list[Row] = []
    on_day: dict[date, list[int]] = {day: [] for day in columns.drives}
    for (yard, number), visit in columns.visits.items():
        day = routes[yard].stops[number - 1]
        on_day[day].append(visit)
        rows.append(Row(-1, 0, {visit: 1, columns.drives[day]: -1}))
    if yards_a_day is not None:
        rows += [Row(0, yards_a_day, dict.fromkeys(visits, 1)) for visits in on_day.values()]
    return rows


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
