"""Commands that remove, empty or move what stands in yards: ``remove box 4``, ``move 4a to 7b``."""

import re
from dataclasses import dataclass

from bot.reading.meaning.resolve import resolve
from bot.reading.result import Command, CommandName, Finding, Reading
from bot.reading.scan.elements import AtYard, Break, Cursor, NamedUnits
from bot.reading.scan.scanner import scan, with_boxes
from bot.reading.situation import Situation
from bot.reading.tokens.token import tokenise
from bot.reading.tokens.yard_names import yard_called
from scheduling.entry_kinds import EntryKind
from scheduling.places import LETTERS, Place, UnitName

_REMOVE = re.compile(
    r"(?:please )?(?:remove|delete|take away) (?:the )?(?P<what>(?!of\b).+)", re.IGNORECASE
)
_YARD = re.compile(r"yard (?P<name>.+)", re.IGNORECASE)
_EMPTY = re.compile(
    r"(?:please )?empty (?:the )?(?P<what>(?:box|boxes|unit|units) .+)", re.IGNORECASE
)
_MOVE = re.compile(
    r"(?:please )?move (?:the )?(?P<what>.+?) (?:to|into|over to) (?P<where>.+)", re.IGNORECASE
)


def removing_of(text: str, situation: Situation) -> Reading | None:
    """Read what is removed, emptied or moved; None where no unit or yard is."""
    if found := _EMPTY.fullmatch(text):
        return _emptied(found["what"], situation)
    if found := _MOVE.fullmatch(text):
        return _moved(found["what"], found["where"], situation)
    found = _REMOVE.fullmatch(text)
    return None if found is None else _removed(found["what"], situation)


def _removed(what: str, situation: Situation) -> Reading | None:
    if yard := _YARD.fullmatch(what):
        names = [each.name for each in situation.yards]
        known = yard_called(yard["name"], names, situation.current_yard)
        return Reading(command=Command(CommandName.REMOVE_YARD, yard=known), yard=known)
    named = _named(what, situation)
    if named is None:
        return None
    found = resolve(named.units, named.yard, situation)
    if found.questions:
        return Reading(questions=found.questions)
    return Reading(command=Command(CommandName.REMOVE_UNITS, places=found.places), yard=named.yard)


def _emptied(what: str, situation: Situation) -> Reading | None:
    named = _named(what, situation)
    if named is None:
        return None
    found = resolve(named.units, named.yard, situation)
    findings = (Finding(place, EntryKind.EMPTIED, None, situation.today) for place in found.places)
    return Reading(tuple(findings), found.questions, yard=named.yard)


def _moved(what: str, where: str, situation: Situation) -> Reading | None:
    named, to = _named(what, situation), _target(where, situation)
    if named is None or to is None:
        return None
    found = resolve(named.units, named.yard, situation)
    if found.questions:
        return Reading(questions=found.questions)
    command = Command(CommandName.MOVE_UNITS, places=found.places, to_yard=to.yard, to_unit=to.unit)
    return Reading(command=command)


@dataclass(frozen=True)
class _Named:
    """Units that a text names, and the yard that it names for them."""

    units: tuple[NamedUnits, ...]
    yard: str | None


def _named(text: str, situation: Situation) -> _Named | None:
    """Read a text that names units and nothing else besides their yard."""
    read = _units_and_yard(text, situation)
    return read if read is not None and read.units else None


@dataclass(frozen=True)
class _Target:
    """Where units are moved to: a yard, a unit or box, or both."""

    yard: str | None
    unit: UnitName | None


def _target(text: str, situation: Situation) -> _Target | None:
    read = _units_and_yard(text, situation)
    if read is None or len(read.units) > 1:
        return None
    if not read.units:
        return _Target(read.yard, None) if read.yard is not None else None
    references = read.units[0].references
    first = references[0]
    plain = first.to is None and not first.position and first.count is None
    if len(references) > 1 or not plain or not first.box or first.letter not in ("", *LETTERS):
        return None
    return _Target(read.yard, UnitName(first.box, first.letter))


def _units_and_yard(text: str, situation: Situation) -> _Named | None:
    names = [yard.name for yard in situation.yards]
    cursor = Cursor(text, tokenise(text), names, current_yard=situation.current_yard)
    units: list[NamedUnits] = []
    yard: str | None = None
    for element in with_boxes(scan(cursor)):
        if isinstance(element, AtYard):
            yard = element.name
        elif isinstance(element, NamedUnits):
            units.append(element)
        elif not isinstance(element, Break):
            return None
    return _Named(tuple(units), yard)


def target_of(place: Place, command: Command) -> Place | None:
    """Give the place that a unit is moved to; None if the command does not tell.

    A unit takes the name that was said; the units of one box keep their letters in another box.
    """
    yard, unit = command.to_yard or place.yard, command.to_unit
    if unit is None or place.unit is None:
        return Place(yard, place.unit)
    if len(command.places) == 1:
        return Place(yard, unit)
    boxes = {each.unit.box for each in command.places if each.unit is not None}
    if unit.letter or len(boxes) > 1:
        return None
    return Place(yard, UnitName(unit.box, place.unit.letter))
