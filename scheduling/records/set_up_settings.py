"""A crew's set-up in plain values: read, compared and put back, part by part."""

from collections.abc import Callable, Mapping
from datetime import datetime, time
from typing import Any

from sqlalchemy import delete, insert, select
from sqlalchemy.orm import Session

from scheduling.places import UnitName
from scheduling.records.calendar_cache import check_log_again
from scheduling.records.crews import folded
from scheduling.records.removed_yards import hide_yard
from scheduling.records.set_up_parts import CREW, PERSON, UNITS, YARD, Parts, is_made
from scheduling.records.tables import CrewRow, PersonRow, UnitRow, YardRow
from scheduling.records.weather_asked import ask_soon, forget_place
from scheduling.records.weather_days import make_all_days, site_of

SetUp = Mapping[str, Mapping[str, Any]]
"""Plain values by part and field; a unit is a field that is True."""

_OF_CREW = ("look_at", "give_up_at", "weekdays")
_OF_YARD = ("name", "zone", "latitude", "longitude", "removed_at")
_TIMES = frozenset({"morning", "quiet_from", "quiet_until"})
_INSTANTS = frozenset({"morning_asked_at", "quiet_asked_at", "removed_at"})
_OF_PERSON = (
    *("zone", "feeder_litres", "first_channel", "fallback_minutes", "daily_word"),
    *("morning", "quiet_from", "quiet_until", "morning_asked_at", "quiet_asked_at"),
)


def set_up_as_kept(session: Session, crew_id: int, person_id: int) -> SetUp:
    """Read a crew's set-up and one person's settings."""
    session.flush()
    parts: dict[str, dict[str, Any]] = {
        CREW: _plain(session.get_one(CrewRow, crew_id), _OF_CREW),
        PERSON: _plain(session.get_one(PersonRow, person_id), _OF_PERSON),
    }
    for yard in session.scalars(select(YardRow).where(YardRow.crew_id == crew_id)):
        parts[f"{YARD} {yard.id}"] = _plain(yard, _OF_YARD)
        units = select(UnitRow.box, UnitRow.letter).where(UnitRow.yard_id == yard.id)
        names = sorted(UnitName(box, letter) for box, letter in session.execute(units))
        parts[f"{UNITS} {yard.id}"] = {str(name): True for name in names}
    return parts


def differences(before: SetUp, after: SetUp) -> dict[str, dict[str, tuple[Any, Any]]]:
    """Give every field that is another now."""
    found: dict[str, dict[str, tuple[Any, Any]]] = {}
    for part in {**before, **after}:
        was, became = before.get(part, {}), after.get(part, {})
        changed = {
            name: (was.get(name), became.get(name))
            for name in {**was, **became}
            if was.get(name) != became.get(name)
        }
        if changed:
            found[part] = changed
    return found


def put_back(
    session: Session,
    crew_id: int,
    person_id: int,
    parts: Parts,
    now: datetime,
) -> None:
    """Give every field the value that it had before; a yard that was made is removed."""
    for part, fields in parts.items():
        what, _, number = part.partition(" ")
        was = {name: _parsed(name, value) for name, (value, _) in fields.items()}
        if what == CREW:
            _set(session.get_one(CrewRow, crew_id), was)
        elif what == PERSON:
            _set(session.get_one(PersonRow, person_id), was)
        elif what == YARD and is_made(fields):
            hide_yard(session, session.get_one(YardRow, int(number)), now)
        elif what == YARD:
            _put_yard_back(session, crew_id, session.get_one(YardRow, int(number)), was)
        else:
            _put_units_back(session, int(number), was)
    session.flush()


def _plain(row: Any, names: tuple[str, ...]) -> dict[str, Any]:
    values = ((name, getattr(row, name)) for name in names)
    return {name: value.isoformat() if _is_time(name, value) else value for name, value in values}


def _is_time(name: str, value: Any) -> bool:
    return value is not None and name in _TIMES | _INSTANTS


def _parsed(name: str, value: Any) -> Any:
    if value is None or name not in _TIMES | _INSTANTS:
        return value
    parse: Callable[[str], Any] = time.fromisoformat if name in _TIMES else datetime.fromisoformat
    return parse(value)


def _set(row: Any, values: Mapping[str, Any]) -> None:
    for name, value in values.items():
        setattr(row, name, value)


def _put_yard_back(session: Session, crew_id: int, row: YardRow, was: Mapping[str, Any]) -> None:
    _set(row, was)
    if "name" in was:
        row.name_folded = folded(row.name)
        check_log_again(session, crew_id)
    session.flush()
    if "zone" in was and row.latitude is not None:
        make_all_days(session, row.id, site_of(row))
    if row.latitude is None:
        forget_place(session, row)
    elif "latitude" in was or "longitude" in was:
        ask_soon(session, row)


def _put_units_back(session: Session, yard_id: int, was: Mapping[str, Any]) -> None:
    for name, there in was.items():
        unit = UnitName.parse(name)
        same = (UnitRow.box == unit.box) & (UnitRow.letter == unit.letter)
        if there:
            again = {"yard_id": yard_id, "box": unit.box, "letter": unit.letter}
            session.execute(insert(UnitRow), [again])
        else:
            session.execute(delete(UnitRow).where(UnitRow.yard_id == yard_id, same))
