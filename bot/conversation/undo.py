"""Undo: the last thing that a person noted or set up, or what the quoted answer is of."""

from collections.abc import Mapping
from typing import Any

from bot.conversation.permissions import Act, not_allowed
from bot.conversation.quoted import Quoted
from bot.conversation.record_findings import said_by_quoted, take_back, undone_words
from bot.conversation.set_up import settle_morning
from bot.conversation.turn import Turn
from bot.delivery.quiet_hours import look_anew
from bot.reading.result import Command
from bot.wording import undo_texts as words
from bot.wording.message import Message
from bot.wording.report_answers import taken_back
from scheduling.entries import Entry, standing, struck
from scheduling.entry_kinds import EntryKind
from scheduling.records.addresses import crews_together
from scheduling.records.crew_records import CrewRecords
from scheduling.records.set_up_changes import ChangedSinceError, SetUpChange
from scheduling.records.set_up_parts import CREW, UNITS, YARD, is_made


def undo(turn: Turn, _command: Command) -> Message:
    """Take back the last thing that the person did; or what the quoted answer is of."""
    if turn.quoted is not None:
        return _undo_quoted(turn, turn.quoted)
    said = turn.records.last_said(turn.person.id)
    change = turn.records.last_change(turn.person.id)
    if change is not None and turn.records.is_newer(change, said):
        return _undo_change(turn, change)
    if not said:
        return not_allowed(turn, Act.NOTE) or Message((words.nothing_to_undo(),))
    return _strike(turn, said)


def _strike(turn: Turn, entries: tuple[Entry, ...]) -> Message:
    refused = not_allowed(turn, Act.NOTE)
    if refused is not None:
        return refused
    return Message((undone_words(turn, take_back(turn, entries)),), pressed=taken_back())


def _undo_quoted(turn: Turn, quoted: Quoted) -> Message:
    """Take back what one message noted or changed, and nothing of any other."""
    change = _change_by(turn, quoted)
    said = said_by_quoted(turn, quoted)
    if change is not None and not change.undone:
        return _undo_change(turn, change)
    gone = struck(turn.log)
    left = tuple(entry for entry in said if entry.uid not in gone)
    if any(entry.kind is not EntryKind.STRIKE for entry in left):
        return _strike(turn, left)
    if change is not None or any(entry.kind is not EntryKind.STRIKE for entry in said):
        return Message((words.taken_back_already(),), pressed=taken_back())
    return Message((words.nothing_noted_there(),))


def _change_by(turn: Turn, quoted: Quoted) -> SetUpChange | None:
    if quoted.of_message is None:
        return None
    channel = turn.message.channel
    return turn.records.change_by(turn.person.id, channel, quoted.of_message)


def _undo_change(turn: Turn, change: SetUpChange) -> Message:
    """Put the set-up back, and strike what the same message noted."""
    refused = not_allowed(turn, _act_of(change))
    if refused is not None:
        return refused
    noted = _noted_since(turn, change)
    if noted:
        return Message.of(words.noted_there_since(sorted({str(e.place) for e in noted})))
    before = turn.person
    try:
        turn.records.undo_change(turn.person.id, change, turn.now)
    except ChangedSinceError:
        return Message.of(words.changed_since())
    take_back(turn, _noted_with(turn, change))
    turn.look_again()
    turn.person = settle_morning(turn.records, before, turn.now)
    look_anew(turn.session, turn.person.id, turn.now)
    _undo_elsewhere(turn, change)
    told = words.change_undone(change.parts, _yard_names(turn))
    return Message((told,), pressed=taken_back())


def _act_of(change: SetUpChange) -> Act:
    """Say what it takes to put a change back: as much as to make it."""
    changed = {part.partition(" ")[0] for part in change.parts}
    if changed & {CREW, YARD}:
        return Act.SETTLE
    return Act.NOTE if UNITS in changed else Act.OWN


def _undo_elsewhere(turn: Turn, change: SetUpChange) -> None:
    """Put back what the same message changed for the person in their other crews."""
    for other in crews_together(turn.session, turn.person.id):
        records = CrewRecords(turn.session, other.crew_id)
        same = records.change_by(other.id, change.channel, change.message)
        if other.crew_id == turn.person.crew_id or same is None or same.undone:
            continue
        try:
            records.undo_change(other.id, same, turn.now)
        except ChangedSinceError:
            continue
        settle_morning(records, other, turn.now)


def _noted_with(turn: Turn, change: SetUpChange) -> list[Entry]:
    found = turn.records.entries_from_message(change.channel, change.message)
    gone = struck(turn.log)
    return [e for e in found if e.uid not in gone and e.kind is not EntryKind.STRIKE]


def _noted_since(turn: Turn, change: SetUpChange) -> list[Entry]:
    """What stands in the log of units and yards that the undo would take away.

    By the places at which it was noted: of a unit that was moved only what came afterwards.
    """
    own = {entry.uid for entry in _noted_with(turn, change)}
    stands = {entry.uid for entry in standing(turn.log)} - own
    names = _yard_names(turn)
    return [
        entry
        for entry in turn.log
        if entry.uid in stands
        and any(_takes_away(part, fields, names, entry) for part, fields in change.parts.items())
    ]


def _takes_away(
    part: str, fields: Mapping[str, tuple[Any, Any]], names: Mapping[str, str], entry: Entry
) -> bool:
    what, _, number = part.partition(" ")
    if names.get(number) != entry.place.yard:
        return False
    if what == YARD:
        return is_made(fields)
    was, is_there = fields.get(str(entry.place.unit), (True, True))
    return what == UNITS and bool(is_there) and not was


def _yard_names(turn: Turn) -> dict[str, str]:
    """The name of each yard by its number."""
    parts = turn.records.set_up(turn.person.id)
    yards = (part for part in parts if part.startswith(f"{YARD} "))
    return {part.partition(" ")[2]: parts[part]["name"] for part in yards}
