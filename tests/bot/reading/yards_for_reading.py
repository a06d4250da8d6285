"""One invented pair of yards for the examples of how replies are read."""

from collections.abc import Iterable
from datetime import date

from bot.reading.reader import read
from bot.reading.result import Reading
from bot.reading.situation import LastFinding, Situation, YardUnits
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.values import Value

TODAY = date(2027, 5, 12)
"""A Wednesday."""


def units(names: str) -> tuple[UnitName, ...]:
    return tuple(UnitName.parse(name) for name in names.split())


HOME = YardUnits("Home", units("1a 1b 1c 4a 4b 4c 5a 5b 7 8a 8b"))
RIVER = YardUnits("River", units("4a 4b 20a 20b"))


def at(
    *,
    today: date = TODAY,
    yards: tuple[YardUnits, ...] = (HOME, RIVER),
    current: str | None = "Home",
    waiting: dict[str, CheckKind] | None = None,
    waiting_at: str = "Home",
    last_said: LastFinding | None = None,
) -> Situation:
    """Give a situation; ``waiting`` are open checks at one yard."""
    checks = {
        Place(waiting_at, UnitName.parse(unit)): (check,) for unit, check in (waiting or {}).items()
    }
    return Situation(today, yards, current, lambda: checks, last_said)


def found(reading: Reading) -> set[tuple[str, EntryKind, Value | None, date]]:
    return {(str(f.place.unit), f.kind, f.value, f.on) for f in reading.findings}


def kinds(text: str, situation: Situation | None = None) -> dict[str, set[EntryKind]]:
    """Give the kinds of finding read, by unit."""
    told: dict[str, set[EntryKind]] = {}
    for finding in read(text, situation or at()).findings:
        told.setdefault(str(finding.place.unit), set()).add(finding.kind)
    return told


def for_each(names: str, kind: EntryKind) -> dict[str, set[EntryKind]]:
    return {name: {kind} for name in names.split()}


def existing(yards: Iterable[YardUnits]) -> set[tuple[str, UnitName]]:
    return {(yard.name, unit) for yard in yards for unit in yard.units}
