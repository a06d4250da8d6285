"""The cache of a process: the log and the calendars of the crews that it served last."""

from collections import OrderedDict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from threading import Lock
from weakref import WeakKeyDictionary

from sqlalchemy import Pool
from sqlalchemy.orm import Session

from scheduling.checks.calendar import Calendar
from scheduling.checks.work_out_again import WorkedOut, work_out_again
from scheduling.entries import Entry
from scheduling.walk.odds import Odds
from scheduling.weather.yard_weather import YardWeather

MOST_ENTRIES = 30_000
"""Entries held in all; 22,588, of 50 crews of 60 units, took 25 MiB with their calendars."""

Names = Mapping[tuple[str, int], str]
"""Names of yards and people by ("yard" or "person", number)."""


@dataclass(frozen=True)
class CachedLog:
    """A log as it was read.

    Attributes:
        entries: all of it, in the order it was written.
        last: the number of its last row; 0 of an empty one.
        names: the names of yards and people that stand in its entries.
    """

    entries: tuple[Entry, ...] = ()
    last: int = 0
    names: Names = field(default_factory=dict)


@dataclass(frozen=True)
class CachedCrew:
    """What is cached of a crew: its log, and a calendar for each size of feeder in it.

    ``checked`` tells that the log was held against the database in this transaction.
    """

    log: CachedLog | None = None
    calendars: Mapping[float, WorkedOut] = field(default_factory=dict)
    checked: bool = False


NOTHING = CachedCrew()


class CalendarCache:
    """The log of crews and what was worked out of it, for the crews that were served last.

    A log is good as long as its last row is still the same entry, as many rows stand before it
    and nobody was renamed; the database is asked for that once in each transaction, and only rows
    that came since are read. A calendar is good for the log, the weather, the odds and the size of
    feeder that it was worked out of; of another log only the units that were spoken of since are
    worked out. Nothing else is cached, and forgetting all of it loses nothing but time.

    What a transaction reads or writes is its own until it is kept; of one that fails nothing stays.
    Crews served longest ago are forgotten first, as soon as more than ``most_entries`` are held.
    """

    def __init__(self, most_entries: int = MOST_ENTRIES) -> None:
        self._most = most_entries
        self._crews: OrderedDict[int, CachedCrew] = OrderedDict()
        self._held = 0
        self._one = Lock()

    def get(self, crew_id: int) -> CachedCrew:
        """Give what is cached of a crew, to be checked before it is used."""
        with self._one:
            return self._crews.get(crew_id, NOTHING)

    def put(self, crew_id: int, crew: CachedCrew) -> None:
        """Cache a crew in place of what was cached of it."""
        with self._one:
            self._held += _size(crew) - _size(self._crews.pop(crew_id, NOTHING))
            self._crews[crew_id] = replace(crew, checked=False)
            while self._held > self._most and len(self._crews) > 1:
                self._held -= _size(self._crews.popitem(last=False)[1])


def _size(crew: CachedCrew) -> int:
    return len(crew.log.entries) if crew.log is not None else 0


_caches: WeakKeyDictionary[Pool, CalendarCache] = WeakKeyDictionary()
"""The cache of each database that this process has open."""

_STAGED = "cached crews"


def cached(session: Session, crew_id: int) -> CachedCrew:
    """Give what is cached of a crew, first of all by this transaction."""
    staged: dict[int, CachedCrew] = session.info.get(_STAGED, {})
    cache = _caches.get(session.get_bind().engine.pool)
    return staged.get(crew_id) or (cache.get(crew_id) if cache is not None else NOTHING)


def cache_log(session: Session, crew_id: int, log: CachedLog) -> None:
    """Cache a log that this transaction has held against the database."""
    _stage(session, crew_id, replace(cached(session, crew_id), log=log, checked=True))


def check_log_again(session: Session, crew_id: int) -> None:
    """Let the log be held against the database once more, since this transaction wrote of it."""
    _stage(session, crew_id, replace(cached(session, crew_id), checked=False))


def cached_calendar(
    session: Session,
    crew_id: int,
    log: Iterable[Entry],
    weather: Mapping[str, YardWeather],
    odds: Odds,
    feeder_litres: float,
) -> Calendar:
    """Work a crew's calendar out, from the one that is cached where that came of nearly the same.

    What it is worked out of is told at ``work_out``.
    """
    crew = cached(session, crew_id)
    known = work_out_again(crew.calendars.get(feeder_litres), log, weather, odds, feeder_litres)
    _stage(session, crew_id, replace(crew, calendars={**crew.calendars, feeder_litres: known}))
    return known.calendar


def _stage(session: Session, crew_id: int, crew: CachedCrew) -> None:
    session.info.setdefault(_STAGED, {})[crew_id] = crew


def share_cached(session: Session) -> None:
    """Let later transactions use what was cached by one that was kept."""
    staged: dict[int, CachedCrew] = session.info.pop(_STAGED, {})
    if staged:
        cache = _caches.setdefault(session.get_bind().engine.pool, CalendarCache())
        for crew_id, crew in staged.items():
            cache.put(crew_id, crew)
