"""Taking back what was said: undo, "oops", and edited messages."""

from collections.abc import Iterable, Sequence

from bot.desk.step import Step
from bot.reading.result import Finding
from scheduling.entries import Entry, standing, struck
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place

_SUBJECTS: tuple[frozenset[EntryKind], ...] = (
    frozenset(
        {
            EntryKind.EMERGED,
            EntryKind.NOT_EMERGED,
            EntryKind.CELL_FAILED,
            EntryKind.RELEASED,
            EntryKind.STILL_CAGED,
            EntryKind.QUEEN_DEAD,
            EntryKind.VIRGIN_SEEN,
            EntryKind.QUEEN_SEEN,
            EntryKind.QUEEN_NOT_SEEN,
            EntryKind.EGGS,
            EntryKind.NO_EGGS,
            EntryKind.SEALED_BROOD,
            EntryKind.DRONE_LAYER,
            EntryKind.LAYING_WORKERS,
            EntryKind.OWN_CELLS,
            EntryKind.QUEEN_TAKEN,
        }
    ),
    frozenset({EntryKind.FED, EntryKind.STORES}),
    frozenset({EntryKind.TRAP_SET, EntryKind.TRAP_SERVICED}),
    frozenset({EntryKind.BROOD_ADDED, EntryKind.BEES_ADDED}),
    frozenset({EntryKind.CELL_PLACED, EntryKind.VIRGIN_PLACED, EntryKind.CAGED_QUEEN_PLACED}),
    frozenset({EntryKind.DEAD, EntryKind.ABSCONDED, EntryKind.COMBINED, EntryKind.ROBBED}),
)
"""Kinds that speak of one subject: "oops" takes back what was said of the same subject."""


def take_back(step: Step, entries: Iterable[Entry]) -> list[Finding]:
    """Strike entries; gives what they had said, without the strikes among them."""
    taken = list(entries)
    step.append([step.strike(entry) for entry in taken])
    return [finding_of(entry) for entry in taken if entry.kind is not EntryKind.STRIKE]


def finding_of(entry: Entry) -> Finding:
    """What an entry says."""
    return Finding(entry.place, entry.kind, entry.value, entry.on, entry.note)


def said_by_message(step: Step, message: str) -> list[Entry]:
    """Entries of an earlier message of this channel that still count."""
    gone = struck(step.log)
    found = step.records.entries_from_message(step.message.channel, message)
    return [e for e in found if e.uid not in gone and e.kind is not EntryKind.STRIKE]


def replaced_by(step: Step, findings: Sequence[Finding]) -> list[Entry]:
    """What "oops" takes back: the newest word of the same subject on each place and day."""
    log = standing(step.log)
    found = (_replaced(log, finding) for finding in findings)
    return list(dict.fromkeys(entry for entries in found for entry in entries))


def _replaced(log: Sequence[Entry], finding: Finding) -> list[Entry]:
    subject = _subject(finding.kind)
    same = [e for e in log if _about(e, finding.place, subject) and e.on == finding.on]
    if not same:
        return []
    newest = max(same, key=lambda entry: entry.recorded_at)
    return [entry for entry in same if entry.message == newest.message]


def _about(entry: Entry, place: Place, subject: frozenset[EntryKind]) -> bool:
    return entry.place == place and entry.kind in subject


def _subject(kind: EntryKind) -> frozenset[EntryKind]:
    return next((subject for subject in _SUBJECTS if kind in subject), frozenset({kind}))
