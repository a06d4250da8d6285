"""The program of several yards: its columns, and the rows that hold them together."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from scheduling.visit_plan.legs import Leg, Route
from scheduling.visit_plan.solver import Row


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
