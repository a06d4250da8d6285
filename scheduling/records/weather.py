"""The weather kept for the yards of a crew."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import TypeVar

from sqlalchemy import select

from scheduling.records.tables import YardRow
from scheduling.records.weather_tables import WeatherHourRow
from scheduling.records.yards import KnownYards, Yard, YardsOfCrew
from scheduling.weather.day import sums_of
from scheduling.weather.flight import flight_hours_of
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


@dataclass(frozen=True)
class KnownWeather:
    """Weather worked out before, from a local date on.

    Attributes:
        first: that date.
        of: of which yards, at which places, by which answers of the source (``KnownYards.of``).
        weather: each yard's weather.

    """

    first: date
    of: tuple[tuple[object, ...], ...]
    weather: Mapping[str, YardWeather]


class WeatherOfCrew(YardsOfCrew):
    """The weather of one crew's yards."""

    def weather(self, first: date, yards: KnownYards | None = None) -> Mapping[str, YardWeather]:
        """Give the weather of each yard for which there is any, from a local date on.

        What was worked out before holds until the source has answered anew or a yard was moved.

        Args:
            first: that date.
            yards: the yards as they are now, if this transaction has just looked.

        """
        of, known = (yards or self.known_yards()).of, self.recall(KnownWeather)
        if known is None or (known.first, known.of) != (first, of):
            known = KnownWeather(first, of, self._worked_out(first))
            self.remember(known)
        return known.weather

    def _worked_out(self, first: date) -> dict[str, YardWeather]:
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
        kept = (
            select(*_KEPT)
            .join(YardRow, YardRow.id == WeatherHourRow.yard_id)
            .where(YardRow.crew_id == self._crew_id, YardRow.id == yard.id)
            .where(WeatherHourRow.at >= _since_instant(first))
            .where(WeatherHourRow.measured.is_(measured))
            .order_by(WeatherHourRow.at)
        )
        return [HourOfWeather(*row) for row in self._session.execute(kept)]


def _since_instant(first: date) -> datetime:
    # A day early, since the local date may begin before UTC's.
    return datetime.combine(first, time(), tzinfo=UTC) - timedelta(days=1)


def _weather(
    measured: Sequence[HourOfWeather], ahead: Sequence[HourOfWeather], site: Site, first: date
) -> YardWeather:
    days = by_day([*measured, *ahead], site.zone)
    not_over = by_day(ahead, site.zone)
    over = [day for day in by_day(measured, site.zone) if day not in not_over]
    return YardWeather(
        flight_hours=_since(flight_hours_of(days, site), first),
        days=_since(sums_of(days, site), first),
        measured_to=max(over, default=None),
    )


def _since(days: Mapping[date, _Told], first: date) -> dict[date, _Told]:
    return {day: told for day, told in days.items() if day >= first}
