"""Yards renamed and removed; boxes and units removed and moved with their story."""

from collections.abc import Iterable

from bot.conversation.turn import Turn
from bot.reading.commands.removing_commands import target_of
from bot.reading.name_clashes import clash_of
from bot.reading.result import Command, Finding
from bot.reading.tokens.yard_names import is_same_name
from bot.wording import set_up_texts, yard_changes
from bot.wording.message import Message
from bot.wording.report_answers import UNDO
from bot.wording.yes_or_no import yes_or_no
from scheduling.entries import Entry, standing
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.values import Moved


def rename_yard(turn: Turn, command: Command) -> Message:
    """Call a yard otherwise; its story goes with it."""
    old, new = command.yard, command.word or ""
    if old is None:
        return Message.of(yard_changes.no_such_yard(list(turn.units)))
    clash = clash_of(new)
    if clash is not None:
        return Message.of(set_up_texts.yard_name_refused(new, clash))
    if any(is_same_name(new, name) for name in turn.units if name != old):
        return Message.of(yard_changes.name_taken(new))
    yard = turn.records.rename_yard(old, new)
    _turn_anew(turn, yard.name)
    return Message((yard_changes.yard_renamed(old, yard.name),), UNDO)


def remove_yard(turn: Turn, command: Command) -> Message:
    """Remove a yard; asked about first if units stand in it."""
    name = command.yard
    if name is None:
        return Message.of(yard_changes.no_such_yard(list(turn.units)))
    units = turn.units[name]
    if units and not turn.confirmed:
        return turn.ask_first(yes_or_no(yard_changes.really_remove(name, len(units))))
    turn.records.remove_yard(name, turn.now)
    _turn_anew(turn, None)
    return Message((yard_changes.yard_removed(name),), UNDO)


def remove_units(turn: Turn, command: Command) -> Message:
    """Take units away; what was in them ends, and their story stays in the log."""
    places = command.places
    told = {entry.place for entry in standing(turn.log)}
    turn.append([_entry(turn, place, EntryKind.EMPTIED) for place in places if place in told])
    for yard, units in _by_yard(places).items():
        turn.records.remove_units(yard, units)
    before = turn.units
    turn.look_again()
    return Message((yard_changes.units_removed(places, before),), UNDO)


def move_units(turn: Turn, command: Command) -> Message:
    """Carry units to another place, with all that was noted of them."""
    targets = {place: target_of(place, command) for place in command.places}
    moves = {place: target for place, target in targets.items() if target is not None}
    if len(moves) < len(targets):
        return Message.of(yard_changes.how_to_move())
    problem = _problem(turn, moves)
    if problem:
        return Message.of(problem)
    told = {entry.place for entry in standing(turn.log)}
    for yard, units in _by_yard(moves.values()).items():
        turn.records.add_units(yard, units)
    for place in (each for each in moves if each in told):
        left = _entry(turn, place, EntryKind.MOVED)
        came = turn.entry(_today(turn, moves[place], EntryKind.MOVED, Moved(left.uid)))
        turn.append([left, came])
    for yard, units in _by_yard(moves).items():
        turn.records.remove_units(yard, units)
    turn.look_again()
    return Message((yard_changes.units_moved(moves),), UNDO)


def _problem(turn: Turn, moves: dict[Place, Place]) -> str:
    """Say why units cannot stand where they are to be moved; "" if they can."""
    told = {entry.place for entry in standing(turn.log)}
    full = [target for target in moves.values() if target in told]
    if full:
        return yard_changes.has_a_story(full[0])
    for yard, units in _by_yard(moves.values()).items():
        staying = [unit for unit in turn.units[yard] if Place(yard, unit) not in moves]
        for unit in units:
            there = [each for each in staying if each.box == unit.box]
            if any(bool(each.letter) is not bool(unit.letter) for each in there):
                return set_up_texts.box_is_divided_otherwise(yard, unit.box, there)
    return ""


def _entry(turn: Turn, place: Place, kind: EntryKind) -> Entry:
    return turn.entry(_today(turn, place, kind))


def _today(turn: Turn, place: Place, kind: EntryKind, value: Moved | None = None) -> Finding:
    return Finding(place, kind, value, turn.today)


def _by_yard(places: Iterable[Place]) -> dict[str, list[UnitName]]:
    found: dict[str, list[UnitName]] = {}
    for place in places:
        if place.unit is not None:
            found.setdefault(place.yard, []).append(place.unit)
    return found


def _turn_anew(turn: Turn, yard: str | None) -> None:
    """Let the talk be in a yard under its present name, or in none."""
    turn.look_again()
    turn.person = turn.records.person(turn.person.id)
    if yard is not None:
        turn.turn_to(yard)
