"""The weather kept for the yards of a crew."""

from collections.abc import Mapping, Sequence
from datetime import UTC, date, datetime, time, timedelta
from typing import TypeVar

from sqlalchemy import select

from scheduling.records.tables import YardRow
from scheduling.records.weather_tables import WeatherHourRow
from scheduling.records.yards import Yard, YardsOfCrew
from scheduling.weather.day import days_of_weather
from scheduling.weather.flight import flight_hours
from scheduling.weather.hour import HourOfWeather
from scheduling.weather.share import by_day
from scheduling.weather.solar_time import Site
from scheduling.weather.yard_weather import YardWeather

_Told = TypeVar("_Told")

_KEPT = (
    WeatherHourRow.at,
    WeatherHourRow.temperature_c,
    WeatherHourRow.wind_kmh,
    WeatherHourRow.rain_mm,
    WeatherHourRow.cloud_share,
    WeatherHourRow.sunshine_minutes,
    WeatherHourRow.humidity_percent,
)


class WeatherOfCrew(YardsOfCrew):
    """The weather of one crew's yards."""

    def weather(self, first: date) -> dict[str, YardWeather]:
        """Give the weather of each yard for which there is any, from a local date on."""
        found = {}
        for yard in self.yards():
            if yard.latitude is None or yard.longitude is None:
                continue
            measured, ahead = self._hours(yard, first, True), self._hours(yard, first, False)
            if measured or ahead:
                site = Site(yard.latitude, yard.longitude, yard.zone)
                found[yard.name] = _weather(measured, ahead, site, first)
        return found

    def _hours(self, yard: Yard, first: date, measured: bool) -> list[HourOfWeather]:
        # A day early, since the local date may begin before UTC's.
        since = datetime.combine(first, time(), tzinfo=UTC) - timedelta(days=1)
        kept = (
            select(*_KEPT)
            .join(YardRow, YardRow.id == WeatherHourRow.yard_id)
            .where(YardRow.crew_id == self._crew_id, YardRow.id == yard.id)
            .where(WeatherHourRow.at >= since, WeatherHourRow.measured.is_(measured))
            .order_by(WeatherHourRow.at)
        )
        return [HourOfWeather(*row) for row in self._session.execute(kept)]


def _weather(
    measured: Sequence[HourOfWeather], ahead: Sequence[HourOfWeather], site: Site, first: date
) -> YardWeather:
    hours = [*measured, *ahead]
    not_over = by_day(ahead, site.zone)
    over = [day for day in by_day(measured, site.zone) if day not in not_over]
    return YardWeather(
        flight_hours=_since(flight_hours(hours, site), first),
        days=_since(days_of_weather(hours, site), first),
        measured_to=max(over, default=None),
    )


def _since(days: Mapping[date, _Told], first: date) -> dict[date, _Told]:
    return {day: told for day, told in days.items() if day >= first}
