"""A database of many crews in the middle of their season; all of it invented."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from random import Random

from sqlalchemy import Engine
from sqlalchemy.orm import Session

from deploy.benchmark.invented_crew import FIRST_DAY, UNITS, YARDS, invented_crew
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import writing
from scheduling.records.weather_asked import YardToAsk, keep_answer
from scheduling.records.yards import Yard
from scheduling.weather.hour import HourOfWeather, Site

INTO_SEASON = timedelta(days=45)
"""How far the season has come by the day of the measuring."""

OWNER = "ida"
NAMES = ("River", "Hill", "Orchard", "Mill")
PAST, AHEAD = timedelta(days=60), timedelta(days=7)


def fill(
    engine: Engine,
    crews: int,
    now: datetime,
    channel: str,
    first_address: int,
    units: int = UNITS,
) -> None:
    """Found crews with a log and weather, each with an owner of consecutive address.

    The dates of the invented season are moved so that it is in full swing at ``now``.
    """
    for number in range(crews):
        with writing(engine) as session:
            log = season(number, now.date(), units)
            _found(session, number, now, channel, str(first_address + number), log)


def small_crew(engine: Engine, now: datetime, channel: str, address: str) -> None:
    """Found one crew with a divided box whose three queens are waited for."""
    units = [UnitName.parse(name) for name in ("4a", "4b", "4c")]
    with writing(engine) as session:
        crew, owner = found_crew(session, "One crew", OWNER, "UTC", now)
        records = CrewRecords(session, crew.id)
        records.add_address(owner.id, channel, address)
        records.update_person(owner.id, cautioned_on=now.date(), next_morning_at=now + timedelta(1))
        records.add_yard(NAMES[0], "UTC")
        records.add_units(NAMES[0], units)
        placed = now.date() - timedelta(days=12)
        records.append(
            Entry(str(unit), Place(NAMES[0], unit), EntryKind.CELL_PLACED, None, placed, now, OWNER)
            for unit in units
        )


def _found(
    session: Session, number: int, now: datetime, channel: str, address: str, log: list[Entry]
) -> None:
    crew, owner = found_crew(session, f"Crew {number}", OWNER, "UTC", now)
    records = CrewRecords(session, crew.id)
    records.add_address(owner.id, channel, address)
    # Whoever was cautioned lately gets the answer alone.
    records.update_person(owner.id, cautioned_on=now.date(), next_morning_at=now + timedelta(1))
    for yard in range(YARDS):
        name = NAMES[yard]
        made = records.add_yard(name, "UTC", latitude=45.0 + yard / 100, longitude=-93.0)
        records.add_units(
            name, {e.place.unit for e in log if e.place.yard == name and e.place.unit}
        )
        keep_weather(session, made, now, Random(number * YARDS + yard))  # noqa: S311 - invented
    records.append(log)


def season(seed: int, today: date, units: int = UNITS) -> list[Entry]:
    """Give a crew's season, no two units alike, as far as it has come by a date."""
    later = today - INTO_SEASON - FIRST_DAY
    log, _ = invented_crew(seed, units, all_different=True)
    moved = (
        replace(
            entry,
            place=Place(NAMES[int(entry.place.yard.removeprefix("yard "))], entry.place.unit),
            on=entry.on + later,
            recorded_at=entry.recorded_at + later,
        )
        for entry in log
    )
    return [entry for entry in moved if entry.on < today]


def keep_weather(session: Session, yard: Yard, now: datetime, chance: Random) -> None:
    """Keep hours of weather for a yard, as its source would have answered."""
    assert yard.latitude is not None and yard.longitude is not None  # noqa: S101, PT018 - given
    site = Site(yard.latitude, yard.longitude, yard.zone)
    hours = [_hour(at, chance) for at in _hours(now)]
    keep_answer(session, YardToAsk(yard.id, site), hours, now, now + timedelta(days=1))


def _hours(now: datetime) -> Iterator[datetime]:
    at = datetime.combine((now - PAST).date(), time(), UTC)
    while at < now + AHEAD:
        yield at
        at += timedelta(hours=1)


def _hour(at: datetime, chance: Random) -> HourOfWeather:
    warm = 14 + 10 * (1 - abs(at.hour - 20) / 12) + chance.uniform(-3, 3)
    return HourOfWeather(
        at=at,
        temperature_c=round(warm, 1),
        wind_kmh=round(chance.uniform(2, 25), 1),
        rain_mm=chance.choice((0.0, 0.0, 0.0, 0.0, 0.4)),
        cloud_share=round(chance.random(), 2),
        sunshine_minutes=float(chance.randrange(61)),
        humidity_percent=float(chance.randrange(40, 95)),
    )
