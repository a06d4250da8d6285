"""The log: things that somebody saw or did, only ever added."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime
from operator import attrgetter

from scheduling import values
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.values import Value


@dataclass(frozen=True)
class Entry:
    """One thing somebody saw or did.

    Attributes:
        uid: the entry's own name, the same in every database and export.
        place: the unit, batch or yard it is about.
        kind: what it says.
        value: what was measured, or None when nothing was or it is unknown.
        on: the yard's local date it speaks of.
        recorded_at: the instant it was written down (aware, UTC).
        person: who said it.
        channel: the channel it came over ("console", "telegram", "import").
        message: the channel's id of the message it came from, if any.
        note: the person's own further words; for a ``note`` the whole of it.

    Raises:
        ValueError: the value does not belong to the kind, or the instant is not aware.
    """

    uid: str
    place: Place
    kind: EntryKind
    value: Value | None
    on: date
    recorded_at: datetime
    person: str
    channel: str = "import"
    message: str | None = None
    note: str = ""

    def __post_init__(self) -> None:
        check_value(self.kind, self.value)
        if self.recorded_at.utcoffset() is None:
            raise ValueError("recorded_at must be an aware instant")


def check_value(kind: EntryKind, value: Value | None) -> None:
    """Refuse a value that does not belong to the kind.

    Raises:
        ValueError: the kind carries another value, carries none, or needs one and has none.
    """
    facts = ENTRY_FACTS[kind]
    if value is None:
        if facts.value_needed:
            raise ValueError(f"{kind} says nothing without its value")
        return
    if not isinstance(value, facts.value or type(None)):
        raise ValueError(f"{kind} cannot carry {type(value).__name__}")


_RECORDED_AT = attrgetter("recorded_at")
_ON = attrgetter("on")


def standing(entries: Iterable[Entry]) -> list[Entry]:
    """Entries that count, in the order they happened: without strikes and what they strike.

    A strike may itself be struck, which puts the first entry back. What was said of a unit that
    was moved since is given at the place where it is now.
    """
    log = sorted(entries, key=_RECORDED_AT)
    strikes = [entry for entry in log if entry.kind is EntryKind.STRIKE]
    gone = struck(strikes) | {strike.uid for strike in strikes}
    kept = [entry for entry in log if entry.uid not in gone] if gone else log
    # Sorting keeps what is equal in its order, so entries of one day stay as they were recorded.
    return sorted(_at_present_places(kept), key=_ON)


def _at_present_places(kept: list[Entry]) -> list[Entry]:
    """Give entries, in the order they were written, at the places where their units are now.

    A move is two entries: one without a value where the unit left, and one that names it where it
    came to. Worked off backward: what is written before a move speaks of the unit's last place.
    """
    if not any(isinstance(entry.value, values.Moved) for entry in kept):
        return kept
    left = {e.uid: e.place for e in kept if e.kind is EntryKind.MOVED and e.value is None}
    now: dict[Place, Place] = {}
    found: list[Entry] = []
    for entry in reversed(kept):
        place = now.get(entry.place, entry.place)
        found.append(entry if place == entry.place else replace(entry, place=place))
        if isinstance(entry.value, values.Moved) and entry.value.left in left:
            now.pop(entry.place, None)
            now[left[entry.value.left]] = place
    return found[::-1]


def struck(entries: Iterable[Entry]) -> frozenset[str]:
    """Uids of what no longer counts: entries that a strike which counts itself names."""
    gone: set[str] = set()
    strikes = [entry for entry in entries if entry.kind is EntryKind.STRIKE]
    for entry in sorted(strikes, key=_RECORDED_AT)[::-1]:
        if entry.uid not in gone:
            assert isinstance(entry.value, values.Struck)  # noqa: S101 - checked when made
            gone.add(entry.value.uid)
    return frozenset(gone)
