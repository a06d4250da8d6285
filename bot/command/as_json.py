"""Readings and checks as plain JSON values, for scripts."""

from dataclasses import fields
from datetime import date
from enum import Enum
from typing import Any

from bot.reading.result import Command, CommandName, Finding, Reading
from bot.wording.days_and_numbers import weekday_name
from bot.wording.questions import ask
from bot.wording.reasons import reason
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Check
from scheduling.entry_kinds import EntryKind
from scheduling.values import (
    Brood,
    CellAge,
    DayWeather,
    PutOff,
    Stores,
    TrapCount,
    Value,
    VirginAge,
    YardForage,
)


def reading_as_json(reading: Reading, *, with_yards: bool = True) -> dict[str, Any]:
    """Give entries, questions and command as values that JSON knows.

    A crew with one yard needs no yard named with each entry.
    """
    return {
        "entries": [_entry(finding, with_yards=with_yards) for finding in reading.findings],
        "questions": [ask(question) for question in reading.questions],
        "command": command_words(reading.command) if reading.command else None,
    }


def _entry(finding: Finding, *, with_yards: bool) -> dict[str, Any]:
    place = finding.place
    said: dict[str, Any] = {"unit": str(place.unit) if place.unit else None}
    said |= {"batch": place.batch} if place.batch else {}
    value = finding.note if finding.kind is EntryKind.NOTE else _value(finding.value)
    said |= {"kind": str(finding.kind), "value": value, "on": finding.on.isoformat()}
    return said | ({"yard": place.yard} if with_yards else {})


def _value(value: Value | None) -> Any:
    if isinstance(value, CellAge):
        return str(value) if value.days_since_egg is not None else _number(value.days_since_graft)
    for kind, name in _SINGLE:
        if isinstance(value, kind):
            return _plain(getattr(value, name))
    return None if value is None else _fields(value)


_SINGLE: tuple[tuple[type[Value], str], ...] = (
    (VirginAge, "days"),
    (Stores, "deep_frames"),
    (TrapCount, "beetles"),
    (Brood, "pattern"),
    (DayWeather, "flying"),
    (YardForage, "forage"),
    (PutOff, "until"),
)
"""Values that say one thing, and its field."""


def _fields(value: Value) -> Any:
    """Give the fields that are set; of food or a queen taken with one field set, that one alone."""
    found = {
        field.name: _plain(getattr(value, field.name))
        for field in fields(value)
        if getattr(value, field.name) is not None
    }
    alone = {"syrup_litres", "fate"}
    return next(iter(found.values())) if len(found) == 1 and alone & set(found) else found


def _plain(value: Any) -> Any:
    if isinstance(value, Enum):
        return str(value)
    if isinstance(value, date):
        return value.isoformat()
    return _number(value) if isinstance(value, float) else value


def _number(value: float | None) -> float | int | None:
    return int(value) if value is not None and value.is_integer() else value


def command_words(command: Command) -> str:
    """Give a command as one would type it: "due river", "history 4b", "boxes 1-12 of 3"."""
    return " ".join([str(command.name), *_details(command)])


def _details(command: Command) -> list[str]:
    if command.name is CommandName.BOXES:
        words = [_runs(command.boxes), "of", str(command.compartments)]
        return words + ([f"at {command.yard}"] if command.yard else [])
    if command.name is CommandName.PLAN and command.on:
        wanted = [str(command.count)] if command.count else []
        return [*wanted, "queens by", command.on.isoformat()]
    if command.name is CommandName.LOCATION:
        return [f"{command.latitude:g}, {command.longitude:g}"]
    if command.name is CommandName.FEEDER:
        return [f"{command.litres:g} litres"]
    if command.name is CommandName.MORNING and command.at:
        return [command.at.strftime("%H:%M")]
    if command.chance is not None:
        return [f"{command.chance * 100:g} percent"]
    if command.weekdays is not None:
        return ["not"] * command.but + [weekday_name(day) for day in sorted(command.weekdays)]
    return _names(command)


def _names(command: Command) -> list[str]:
    if command.unit is not None:
        return [str(command.unit)]
    said = (command.word or command.yard, command.role)
    return [word for word in said if word]


def _runs(numbers: tuple[int, ...]) -> str:
    parts: list[list[int]] = []
    for number in sorted(numbers):
        if parts and number == parts[-1][-1] + 1:
            parts[-1].append(number)
        else:
            parts.append([number])
    return ",".join(str(p[0]) if len(p) == 1 else f"{p[0]}-{p[-1]}" for p in parts)


def check_row(check: Check, day: date) -> dict[str, object]:
    """Give a check as plain values; ``rest`` is the span of a rest and null for all else."""
    span = {"from": check.not_before.isoformat(), "until": _iso(check.by)}
    return {
        "check": str(check.kind),
        "not_before": check.not_before.isoformat(),
        "best": _iso(check.best),
        "by": _iso(check.by),
        "rest": span if check.kind is CheckKind.REST else None,
        "why": reason(check.why, day),
    }


def _iso(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
