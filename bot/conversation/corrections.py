"""Taking back what was said: undo, "oops", and edited messages."""

from collections.abc import Iterable, Sequence

from bot.conversation.turn import Turn
from bot.reading.result import Finding
from scheduling.entries import Entry, standing, struck
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind


def take_back(turn: Turn, entries: Iterable[Entry]) -> list[Finding]:
    """Strike entries; gives what they had said, without the strikes among them."""
    taken = list(entries)
    turn.append([turn.strike(entry) for entry in taken])
    return [finding_of(entry) for entry in taken if entry.kind is not EntryKind.STRIKE]


def finding_of(entry: Entry) -> Finding:
    """What an entry says."""
    return Finding(entry.place, entry.kind, entry.value, entry.on, entry.note)


def said_by_message(turn: Turn, message: str) -> list[Entry]:
    """Entries of an earlier message of this channel that still count."""
    gone = struck(turn.log)
    found = turn.records.entries_from_message(turn.message.channel, message)
    return [e for e in found if e.uid not in gone and e.kind is not EntryKind.STRIKE]


def replaced_by(turn: Turn, findings: Sequence[Finding]) -> list[Entry]:
    """What "oops" takes back: the newest word of the same subject on each place and day."""
    log = standing(turn.log)
    found = (_replaced(log, finding) for finding in findings)
    return list(dict.fromkeys(entry for entries in found for entry in entries))


def _replaced(log: Sequence[Entry], finding: Finding) -> list[Entry]:
    same = [e for e in log if _on_one_subject(e, finding) and e.on == finding.on]
    if not same:
        return []
    newest = max(same, key=lambda entry: entry.recorded_at)
    return [entry for entry in same if entry.message == newest.message]


def _on_one_subject(entry: Entry, finding: Finding) -> bool:
    """Tell whether both speak of one subject of the place; a kind without one is its own."""
    if entry.place != finding.place:
        return False
    subject = ENTRY_FACTS[finding.kind].subject
    if subject is None:
        return entry.kind is finding.kind
    return ENTRY_FACTS[entry.kind].subject is subject
