"""Replies with their meanings, read from the collection beside this file."""

import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from bot.command.as_json import reading_as_json
from bot.reading.result import Reading
from bot.reading.situation import Situation, YardUnits
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName

_KINDS = "|".join(sorted(map(str, EntryKind), key=len, reverse=True))
_MEANING = re.compile(
    r"(?:(?P<yard>\"[^\"]+\"|\w+)\.)?(?P<places>(?:\S+ )+?)"
    rf"(?P<kind>{_KINDS})(?P<value> (?!@).+?)?(?: @(?P<on>\d\d-\d\d))?"
)


@dataclass(frozen=True)
class Example:
    """A reply, where it was said, and what it means: entries, question kinds, command and so on."""

    about: str
    say: str
    means: tuple[str, ...]
    situation: Situation


def examples(path: Path) -> Iterator[Example]:
    """Give every reply of a collection."""
    book = tomllib.loads(path.read_text(encoding="utf-8"))
    for group in book["group"]:
        situation = _situation(book["situation"], group)
        for say, *means in group["replies"]:
            yield Example(group["about"], say, tuple(means), situation)


def _situation(told: Mapping[str, Any], group: Mapping[str, Any]) -> Situation:
    today = date.fromisoformat(told["today"])
    if group.get("bare"):
        return Situation(today)
    yards = tuple(
        YardUnits(name, tuple(UnitName.parse(unit) for unit in units.split()))
        for name, units in told["yards"].items()
    )
    checks = dict(_open(group.get("open", told["open"])))
    return Situation(
        today,
        yards,
        group.get("current", told["current"]) or None,
        lambda: checks,
        feeder_litres=told["feeder_litres"],
    )


def _open(told: Mapping[str, list[str]]) -> Iterator[tuple[Place, tuple[CheckKind, ...]]]:
    for name, kinds in told.items():
        yard, unit = name.rsplit(" ", 1)
        yield Place(yard, UnitName.parse(unit)), tuple(CheckKind(kind) for kind in kinds)


Fact = tuple[str, ...]


def expected(example: Example) -> set[Fact]:
    """Give everything that a right reading of the example says."""
    return {fact for meaning in example.means for fact in _facts(meaning, example.situation)}


def _facts(meaning: str, situation: Situation) -> Iterator[Fact]:
    mark, _, rest = meaning.partition(" ")
    if mark in ("?", "!", "~", ">"):
        yield mark, rest
        return
    found = _MEANING.fullmatch(meaning)
    assert found is not None, meaning
    value = (found["value"] or "").strip()
    plain = tomllib.loads(f"v={_toml(value)}")["v"] if value else None
    on = f"{situation.today.year}-{found['on']}" if found["on"] else situation.today.isoformat()
    for place in found["places"].split():
        yard = (found["yard"] or _yard_at_hand(situation)).strip('"')
        yield "entry", yard, place.removeprefix("batch:"), found["kind"], repr(plain), on


def _toml(value: str) -> str:
    if value[0] in '{"' or re.fullmatch(r"\d+(\.\d+)?", value):
        return value
    return f'"{value}"'


def _yard_at_hand(situation: Situation) -> str:
    """Give the current yard, which the collection leaves out."""
    return situation.current_yard or "Home"


def said(reading: Reading) -> set[Fact]:
    """Give everything that a reading says, in the same form."""
    plain = reading_as_json(reading)
    facts: set[Fact] = {("?", str(question.kind)) for question in reading.questions}
    for entry in plain["entries"]:
        place = entry["unit"] or entry.get("batch") or "-"
        facts.add(("entry", entry["yard"], place, entry["kind"], repr(entry["value"]), entry["on"]))
    if plain["command"]:
        facts.add(("!", plain["command"]))
    if reading.corrects:
        facts.add(("~", ""))
    if reading.yard:
        facts.add((">", reading.yard))
    return facts
