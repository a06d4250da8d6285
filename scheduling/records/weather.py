"""The weather kept for the yards of a crew, by day."""

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

from sqlalchemy import Date, Integer, bindparam, select

from scheduling.records.engine import connection_of
from scheduling.records.tables import YardRow
from scheduling.records.weather_tables import WeatherDayRow
from scheduling.records.yards import YardsOfCrew
from scheduling.weather.day import DayOfWeather
from scheduling.weather.opening import Unfit
from scheduling.weather.yard_weather import YardWeather

_DAYS = (
    select(
        YardRow.name,
        WeatherDayRow.day,
        WeatherDayRow.flight_hours,
        WeatherDayRow.measured,
        WeatherDayRow.warmest_c,
        WeatherDayRow.mean_c,
        WeatherDayRow.opening_hours,
        WeatherDayRow.unfit,
        WeatherDayRow.heat_index_f,
    )
    .join(YardRow, YardRow.id == WeatherDayRow.yard_id)
    .where(YardRow.crew_id == bindparam("crew", type_=Integer))
    .where(WeatherDayRow.day >= bindparam("since", type_=Date))
    .order_by(YardRow.id, WeatherDayRow.day)
)


_LOOKED_BACK = timedelta(days=60)
"""Longer than any queen is waited for."""


class WeatherOfCrew(YardsOfCrew):
    """The weather of one crew's yards."""

    def weather_about(self, day: date) -> Mapping[str, YardWeather]:
        """Give the weather of each yard as far back as it can matter on a day."""
        return self.weather(day - _LOOKED_BACK)

    def weather(self, first: date) -> Mapping[str, YardWeather]:
        """Give the weather of each yard for which there is any, from a local date on.

        The date before may still be the last that was measured.
        """
        asked = {"crew": self._crew_id, "since": first - timedelta(days=1)}
        by_yard: dict[str, list[Any]] = {}
        for row in connection_of(self._session).execute(_DAYS, asked):
            by_yard.setdefault(row.name, []).append(row)
        return {yard: _weather(rows, first) for yard, rows in by_yard.items()}


def _weather(rows: list[Any], first: date) -> YardWeather:
    since = [row for row in rows if row.day >= first]
    known = {row.day: row.flight_hours for row in since if row.flight_hours is not None}
    measured = [row.day for row in rows if row.measured]
    return YardWeather(
        flight_hours=known,
        days={row.day: _day(row) for row in since},
        measured_to=max(measured, default=None),
    )


def _day(row: Any) -> DayOfWeather:
    unfit = None if row.unfit is None else Unfit(row.unfit)
    return DayOfWeather(row.warmest_c, row.mean_c, row.opening_hours, unfit, row.heat_index_f)
