"""Days as they are kept: equal hours make equal days, or the version of the rules has risen."""

from dataclasses import astuple
from datetime import UTC, date, datetime, timedelta
from hashlib import sha256

import pytest

from scheduling.trade import table
from scheduling.weather import day as day_rules
from scheduling.weather.day import RULES, days_to_keep, figures_version
from scheduling.weather.fit_hours import Unfit
from scheduling.weather.hour import HourOfWeather, Site

IOWA = Site(41.3, -92.6, "America/Chicago")
MIDNIGHT = datetime(2027, 5, 1, 5, tzinfo=UTC)  # in Chicago


def hours(count: int) -> list[HourOfWeather]:
    """Weather that is now fit for flight or opening and now not, the same in every run."""
    return [
        HourOfWeather(
            MIDNIGHT + timedelta(hours=n),
            temperature_c=n // 24 * 5 % 24 + n * 7 % 9,
            wind_kmh=n // 24 * 11 % 50 + n % 5,
            rain_mm=0.6 if n // 24 % 9 == 2 else 0,
            cloud_share=n * 3 % 10 / 10,
            sunshine_minutes=None if n % 4 else n * 13 % 61,
            humidity_percent=40 + n * 9 % 55,
        )
        for n in range(count)
    ]


def test_a_day_is_measured_once_all_its_hours_are() -> None:
    told = hours(3 * 24)
    days = days_to_keep(told[:30], told[30:], IOWA)
    assert [day.measured for day in days.values()] == [True, False, False]
    assert list(days) == [date(2027, 5, 1), date(2027, 5, 2), date(2027, 5, 3)]


def test_a_day_of_which_too_little_is_known_has_no_flight_hours() -> None:
    (day,) = days_to_keep(hours(3), [], IOWA).values()
    assert day.flight_hours is None
    assert day.weather.warmest_c is not None


def test_equal_hours_make_the_days_that_this_version_of_the_rules_stands_for() -> None:
    # Whoever changes what the code makes of hours raises RULES; a figure does so by itself.
    days = days_to_keep(hours(40 * 24), [], IOWA)
    told = [[day, kept.flight_hours, *astuple(kept.weather)] for day, kept in days.items()]
    rounded = [[f"{n:.6f}" if isinstance(n, float) else str(n) for n in row] for row in told]
    digest = sha256(repr(rounded).encode()).hexdigest()[:16]
    assert {kept.weather.unfit for kept in days.values()} == {None, *Unfit}
    assert (RULES, digest) == (1, "11a90ba42aca9126")


def test_another_figure_or_other_rules_are_another_version(monkeypatch: pytest.MonkeyPatch) -> None:
    now = figures_version.__wrapped__()
    with monkeypatch.context() as other:
        other.setattr(table, "LEAST_FLYING_CELSIUS", table.MOST_FLYING_CELSIUS)
        assert figures_version.__wrapped__() != now
    with monkeypatch.context() as other:
        other.setattr(day_rules, "RULES", RULES + 1)
        assert figures_version.__wrapped__() != now
    assert figures_version.__wrapped__() == now
