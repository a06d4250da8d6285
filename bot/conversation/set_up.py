"""Setting up without a computer: yards, boxes, the morning, the clock, the map, the feeder."""

from collections.abc import Iterable
from datetime import datetime, time
from zoneinfo import ZoneInfo, available_timezones

from bot.conversation.permissions import Act, may_do
from bot.conversation.turn import Turn
from bot.delivery.quiet_hours import look_anew
from bot.reading.name_clashes import clash_of
from bot.reading.result import Command
from bot.wording import set_up_texts as words
from bot.wording.message import Message
from bot.wording.report_answers import UNDO
from bot.wording.yes_or_no import yes_or_no
from scheduling.places import LETTERS, UnitName
from scheduling.records.crew_records import CrewRecords
from scheduling.records.people import Person
from scheduling.wall_time import first_after_change, instant_of, local_day, next_at

_LIKENESS = 70
"""From this likeness of 100 on, a zone's name is offered for one that does not exist."""


MOST_UNASKED = 60
"""More new units than this may be a slip, and are asked about first."""


def yard(turn: Turn, command: Command) -> Message:
    """Make a yard, or turn the talk to one that exists."""
    name = command.yard or command.word or ""
    known = {each.casefold(): each for each in turn.units}
    if name.casefold() in known:
        turn.turn_to(known[name.casefold()])
        return Message.of(
            words.yard_turned_to(known[name.casefold()], len(turn.records.units(name)))
        )
    clash = clash_of(name)
    if clash is not None:
        return Message.of(words.yard_name_refused(name, clash))
    made = turn.records.add_yard(name, turn.person.zone)
    turn.look_again()
    turn.turn_to(made.name)
    return Message.of(words.yard_made(made.name, made.zone))


def yards(turn: Turn, _command: Command) -> Message:
    """List the yards."""
    return Message.of(words.yards_list(turn.units))


def boxes(turn: Turn, command: Command) -> Message:
    """Set up boxes, each undivided or with compartments."""
    example = f"boxes {command.boxes[0]} of {command.compartments or 1}"
    place, problem = _yard(turn, command, example)
    if place is None:
        return problem
    wanted = [u for box in command.boxes for u in _compartments(box, command.compartments or 1)]
    clash = _divided_otherwise(turn.units[place], wanted)
    if clash is not None:
        there = [unit for unit in turn.units[place] if unit.box == clash]
        return Message.of(words.box_is_divided_otherwise(place, clash, there))
    new = set(wanted) - set(turn.units[place])
    if len(new) > MOST_UNASKED and not turn.confirmed:
        return turn.ask_first(yes_or_no(words.many_units(place, len(new))))
    added = turn.records.add_units(place, wanted)
    turn.look_again()
    turn.turn_to(place)
    return Message.of(words.boxes_made(place, added, turn.units[place]))


def morning(turn: Turn, command: Command) -> Message:
    """Set the local time of the morning message."""
    at = command.at or turn.person.morning
    _update_morning(turn, at, turn.person.zone)
    turn.person = turn.records.update_person(turn.person.id, morning_asked_at=turn.now)
    return Message.of(words.morning_set(at, turn.person.zone, not_today=_not_today(turn, at)))


def _not_today(turn: Turn, at: time) -> bool:
    """Tell whether somebody may wait in vain today for the morning that they asked for."""
    zone, following = turn.person.zone, turn.person.next_morning_at
    still_to_come = turn.now < instant_of(local_day(turn.now, zone), at, zone)
    later = following is not None and local_day(following, zone) > local_day(turn.now, zone)
    return still_to_come and later


def zone(turn: Turn, command: Command) -> Message:
    """Set the person's clock; one who may settle yards moves those that were on the same clock."""
    found, near = find_zone(command.word or "")
    if found is None:
        return Message.of(words.zone_unknown(command.word or "", near))
    moved = _move_yards(turn, found) if may_do(turn.person, Act.SETTLE) else []
    _update_morning(turn, turn.person.morning, found)
    local = turn.now.astimezone(ZoneInfo(found)).time()
    return Message.of(words.zone_set(found, time(local.hour, local.minute), moved))


def _move_yards(turn: Turn, zone: str) -> list[str]:
    """Put the yards that were on the person's clock on another; gives their names."""
    mine = [each.name for each in turn.records.yards() if each.zone == turn.person.zone != zone]
    for name in mine:
        turn.records.set_yard_zone(name, zone)
    return mine


def location(turn: Turn, command: Command) -> Message:
    """Say where a yard is on the map."""
    latitude, longitude = command.latitude or 0.0, command.longitude or 0.0
    place, problem = _yard_of_location(turn, command, f"location {latitude} {longitude}")
    if place is None:
        return problem
    before = turn.records.yard(place)
    turn.records.set_location(place, latitude, longitude)
    said = words.location_set(place, latitude, longitude, was=before.location)
    others = len(turn.units) > 1 and command.yard is None
    return Message((f"{said} {words.not_this_yard(place)}" if others else said,), UNDO)


def _yard_of_location(turn: Turn, command: Command, example: str) -> tuple[str | None, Message]:
    """The yard a place on the map belongs to: the one last spoken of, if none is named."""
    spoken = turn.state.spoken_yard
    if command.yard is None and spoken in turn.units:
        return spoken, Message.of("")
    return _yard(turn, command, example)


def feeder(turn: Turn, command: Command) -> Message:
    """Say what one feeder of this crew holds."""
    litres = command.litres or turn.person.feeder_litres
    turn.records.settle_feeder(litres)
    turn.person = turn.records.person(turn.person.id)
    return Message.of(words.feeder_set(litres))


def find_zone(word: str) -> tuple[str | None, list[str]]:
    """The IANA zone a person means by its name or its city; else names that are like it."""
    by_name = {name.casefold(): name for name in available_timezones()}
    asked = word.strip().replace(" ", "_").casefold()
    if asked in by_name:
        return by_name[asked], []
    cities = [name for key, name in by_name.items() if key.rpartition("/")[2] == asked]
    if len(cities) == 1:
        return cities[0], []
    return None, cities or _like(asked, by_name.values())


def first_morning(person: Person, turn: Turn) -> None:
    """Let the messages of a person who begins, or begins anew, start with the next morning."""
    following = next_at(turn.now, person.morning, person.zone)
    turn.person = turn.records.update_person(person.id, next_morning_at=following)


def _update_morning(turn: Turn, at: time, zone: str) -> None:
    turn.person = turn.records.update_person(
        turn.person.id, morning=at, zone=zone, next_morning_at=_next_morning(turn, at, zone)
    )
    look_anew(turn.session, turn.person.id, turn.now)


def settle_morning(records: CrewRecords, before: Person, now: datetime) -> Person:
    """Let the morning of somebody whose hour or clock was put back come by what it is now."""
    person = records.person(before.id)
    same = (person.morning, person.zone) == (before.morning, before.zone)
    if same or before.next_morning_at is None or person.stopped:
        return person
    following = first_after_change(
        now, before.next_morning_at, before.zone, person.morning, person.zone
    )
    return records.update_person(person.id, next_morning_at=following)


def _next_morning(turn: Turn, at: time, zone: str) -> datetime:
    person = turn.person
    if person.next_morning_at is None or person.stopped:
        return next_at(turn.now, at, zone)
    return first_after_change(turn.now, person.next_morning_at, person.zone, at, zone)


def _like(asked: str, names: Iterable[str]) -> list[str]:
    from rapidfuzz import fuzz, process

    found = process.extract(
        asked, sorted(names), scorer=fuzz.WRatio, processor=str.casefold, limit=2
    )
    return [name for name, score, _ in found if score >= _LIKENESS]


def _yard(turn: Turn, command: Command, example: str) -> tuple[str | None, Message]:
    """The yard a command is about, or what to ask."""
    names = list(turn.units)
    named = command.yard or turn.current_yard or (names[0] if len(names) == 1 else None)
    if named is not None:
        return named, Message.of("")
    asked = words.which_yard(names, example) if names else words.no_yard()
    return None, Message.of(asked)


def _compartments(box: int, count: int) -> list[UnitName]:
    return [UnitName(box)] if count == 1 else [UnitName(box, letter) for letter in LETTERS[:count]]


def _divided_otherwise(there: Iterable[UnitName], wanted: Iterable[UnitName]) -> int | None:
    """The first box that stands in the yard already with other compartments."""
    asked, present = set(wanted), set(there)
    for box in sorted({unit.box for unit in asked}):
        standing = {unit for unit in present if unit.box == box}
        if standing and standing != {unit for unit in asked if unit.box == box}:
            return box
    return None
