"""What every source of weather does; and the tick: which yards are asked for, and when again."""

import time
from collections.abc import Callable
from datetime import date, datetime, timedelta
from typing import Protocol

from sqlalchemy import Engine

from bot.backoff import Backoff
from bot.program_log import log_of
from scheduling.records.addresses import make_ready_again
from scheduling.records.engine import writing
from scheduling.records.weather_asked import (
    YardToAsk,
    claim_yards,
    forget_hours_before,
    keep_answer,
    note_no_answer,
)
from scheduling.records.weather_days import make_days_anew
from scheduling.weather.hour import HourOfWeather

log = log_of(__name__)


class NoWeatherError(Exception):
    """The source did not answer with weather; the message says why, in one line.

    ``wait_seconds`` is how long it asked to be left alone; None where it did not say.
    """

    def __init__(self, reason: str, wait_seconds: float | None = None) -> None:
        super().__init__(reason)
        self.wait_seconds = wait_seconds


class WeatherSource(Protocol):
    """Gives hours of weather, measured and forecast."""

    def hours(
        self, latitude: float, longitude: float, first: date, last: date
    ) -> list[HourOfWeather]:
        """Give the hours of a place on these UTC dates, both included, as far as there are any.

        Raises:
            NoWeatherError: there is no telling now.
        """

    def close(self) -> None:
        """Let go of what the source holds."""


AGAIN = timedelta(hours=3)
"""How long an answer is good for."""
CLAIMED = timedelta(minutes=10)
"""A worker that has not answered by then is taken for dead."""
FIRST_RETRY = timedelta(minutes=5)
"""After a failure; each further one in a row doubles it, up to ``AGAIN``."""
LONGEST_LEFT_ALONE = timedelta(days=1)
PAST = timedelta(days=60)
"""How far back a new yard's weather is asked for: longer than any queen is waited for."""
AHEAD = timedelta(days=7)
OVERLAP = timedelta(days=2)
"""Days asked for once more, since what was forecast has been measured by now."""
KEPT = timedelta(days=400)
ANEW_SECONDS = 10
"""For how long in a row days are made anew after a figure of the trade has changed."""


def refresh_one(engine: Engine, source: WeatherSource, now: datetime) -> bool:
    """Ask for the weather of one yard that is due; False when none is.

    The database is not held while the source is asked.
    """
    with writing(engine) as session:
        claimed = claim_yards(session, now, now + CLAIMED, 1)
    for yard in claimed:
        _refresh(engine, source, yard, now)
    return bool(claimed)


def _always() -> bool:
    return True


def renew_days(engine: Engine, going_on: Callable[[], bool] = _always) -> None:
    """Make days anew that were made with other figures, for a while; the rest comes next time."""
    until = time.monotonic() + ANEW_SECONDS
    number = make_days_anew(engine, lambda: going_on() and time.monotonic() < until)
    if number:
        log.info("days of weather made anew", number=number)


def _refresh(engine: Engine, source: WeatherSource, yard: YardToAsk, now: datetime) -> None:
    since = max(yard.answered_at - OVERLAP, now - PAST) if yard.answered_at else now - PAST
    try:
        hours = source.hours(
            yard.site.latitude, yard.site.longitude, since.date(), (now + AHEAD).date()
        )
    except NoWeatherError as error:
        log.warning("no weather for a yard", yard=yard.yard_id, said=str(error))
        with writing(engine) as session:
            note_no_answer(session, yard, now + _left_alone(yard, error))
        return
    with writing(engine) as session:
        keep_answer(session, yard, hours, now, now + AGAIN)
        forget_hours_before(session, now - KEPT)
    with writing(engine) as session:
        # Not above: who holds the weather's turn must wait for no crew.
        make_ready_again(session, yard.yard_id)


def _left_alone(yard: YardToAsk, error: NoWeatherError) -> timedelta:
    if error.wait_seconds is not None:
        asked_for = timedelta(seconds=min(error.wait_seconds, LONGEST_LEFT_ALONE.total_seconds()))
        return max(FIRST_RETRY, asked_for)
    return Backoff(FIRST_RETRY, AGAIN).after(yard.failures + 1)
