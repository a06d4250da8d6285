"""What is said of a yard's weather beside the checks."""

from datetime import date, timedelta

import pytest

from scheduling.values import Flying
from scheduling.weather.day import DayOfWeather
from scheduling.weather.heat import ColonyHeat, HeatBand
from scheduling.weather.yard_weather import NO_WARNINGS, NO_WEATHER, YardWeather, warnings_on

TODAY = date(2027, 7, 12)


def test_of_unknown_weather_nothing_is_said() -> None:
    assert warnings_on(TODAY, NO_WEATHER) == NO_WARNINGS


def test_a_hot_damp_day_is_hard_on_bees_and_keeper() -> None:
    hot = YardWeather(days={TODAY: DayOfWeather(warmest_c=33, heat_index_f=107)})
    said = warnings_on(TODAY, hot)
    assert said.colonies is ColonyHeat.SHADE_AND_WATER
    assert said.keeper is HeatBand.DANGER


def test_flying_weather_is_told_unless_the_keeper_knows_better() -> None:
    counted = YardWeather(flight_hours={TODAY: 3.0})
    assert warnings_on(TODAY, counted).flight_hours == 3.0
    told = YardWeather(flight_hours={TODAY: 3.0}, words={TODAY: Flying.NOT_FLYING})
    assert warnings_on(TODAY, told).flight_hours is None


@pytest.mark.parametrize(("days_ago", "said"), [(0, False), (1, False), (2, False), (3, True)])
def test_after_two_days_without_measurement_it_says_since_when(days_ago: int, said: bool) -> None:
    last = TODAY - timedelta(days=days_ago)
    assert warnings_on(TODAY, YardWeather(measured_to=last)).none_since == (last if said else None)
