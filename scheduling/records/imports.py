"""Takes entries from a file into a crew, with the yards, units and people they speak of."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from scheduling.entries import Entry
from scheduling.places import UnitName
from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import folded
from scheduling.records.tables import Role


@dataclass(frozen=True)
class ImportReport:
    """What an import did.

    Attributes:
        added: entries that are new in the log.
        already_there: entries whose uid the log had; they were left as they are.
        new_yards: names of the yards made.
        new_units: units set up, each with its yard ("River 4b").
        new_people: names of the people taken into the crew.
    """

    added: int
    already_there: int
    new_yards: tuple[str, ...]
    new_units: tuple[str, ...]
    new_people: tuple[str, ...]


def import_entries(records: CrewRecords, entries: Iterable[Entry], now: datetime) -> ImportReport:
    """Add to a crew's log those entries it does not have, in the order given.

    Yards and people that the crew lacks are made, in its owner's time zone, and units are set up.
    All of it is in the session's one transaction.

    Raises:
        ValueError: two of the entries have one uid.
    """
    given = list(entries)
    known = records.known_uids(entry.uid for entry in given)
    new = [entry for entry in given if entry.uid not in known]
    zone = _owners_zone(records)
    new_yards = _add_yards(records, new, zone)
    new_people = _add_people(records, new, zone, now)
    new_units = _add_units(records, new)
    records.append(new)
    return ImportReport(len(new), len(given) - len(new), new_yards, new_units, new_people)


def _owners_zone(records: CrewRecords) -> str:
    people = sorted(records.people(), key=lambda person: person.role is not Role.OWNER)
    return people[0].zone


def _add_yards(records: CrewRecords, entries: list[Entry], zone: str) -> tuple[str, ...]:
    known = [yard.name for yard in records.yards()]
    missing = _missing((entry.place.yard for entry in entries), known)
    return tuple(records.add_yard(name, zone).name for name in missing)


def _add_people(
    records: CrewRecords, entries: list[Entry], zone: str, now: datetime
) -> tuple[str, ...]:
    known = [person.name for person in records.people(who_left=True)]
    missing = _missing((entry.person for entry in entries), known)
    return tuple(records.add_person(name, zone=zone, now=now).name for name in missing)


def _missing(named: Iterable[str], known: Iterable[str]) -> list[str]:
    there = {folded(name) for name in known}
    missing: dict[str, str] = {}
    for name in named:
        if folded(name) not in there:
            missing.setdefault(folded(name), name)
    return list(missing.values())


def _add_units(records: CrewRecords, entries: list[Entry]) -> tuple[str, ...]:
    named: dict[str, set[UnitName]] = {}
    for place in dict.fromkeys(entry.place for entry in entries):
        if place.unit is not None:
            named.setdefault(folded(place.yard), set()).add(place.unit)
    return tuple(
        f"{records.yard(yard).name} {unit}"
        for yard, units in named.items()
        for unit in records.add_units(yard, units)
    )
