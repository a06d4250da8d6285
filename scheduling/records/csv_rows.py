"""One row of the table of entries: an entry as cells, and cells as an entry."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from functools import partial

from rapidfuzz import fuzz, process

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.entry_limits import faults_of_entry
from scheduling.places import Place, UnitName
from scheduling.plain_text import without_controls
from scheduling.records.crews import tidy
from scheduling.value_forms import value_from_text, value_to_text
from scheduling.values import Value

KEEPERS_COLUMNS = ("on", "yard", "unit", "kind", "value", "person", "note")
"""What a keeper fills in; a file must have all of these."""

COLUMNS = (*KEEPERS_COLUMNS, "batch", "uid", "recorded_at", "channel", "message")
"""All columns of an export; what stands after ``note`` makes it complete."""

IMPORTED = "import"
"""The channel of an entry whose file does not name one."""

_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_LONGEST = {"uid": 64, "channel": 40}
_NEAR = 60.0
"""How like a known word an unknown one must be, of 100, to be named as what was meant."""


@dataclass(frozen=True)
class Problem:
    """A line of the file, the first being 1, and what is wrong with it."""

    line: int
    wrong: str

    def __str__(self) -> str:
        return f"line {self.line}: {self.wrong}"


class RowError(Exception):
    """What is wrong with one row, all of it."""

    def __init__(self, wrong: list[str]) -> None:
        super().__init__("; ".join(wrong))
        self.wrong = wrong


def cells_of(entry: Entry) -> list[str]:
    """Put an entry as the cells of a row, in the order of ``COLUMNS``."""
    return [
        entry.on.isoformat(),
        entry.place.yard,
        "" if entry.place.unit is None else str(entry.place.unit),
        str(entry.kind),
        value_to_text(entry.value),
        entry.person,
        entry.note,
        entry.place.batch or "",
        entry.uid,
        entry.recorded_at.astimezone(UTC).isoformat().replace("+00:00", "Z"),
        entry.channel,
        entry.message or "",
    ]


def entry_of_cells(cells: Mapping[str, str], now: datetime) -> Entry:
    """Read an entry from a row; its ``uid`` stays empty when the row has none.

    Cells by column; a column that is missing counts as blank. ``now`` is the instant of recording
    of a row that names none.

    Raises:
        RowError: what is wrong with the row, every fault of it.
    """
    wrong = [*_unfit_texts(cells), *_faults(cells)]
    if wrong:
        raise RowError(wrong)
    entry = _entry({column: without_controls(cell) for column, cell in cells.items()}, now)
    wrong = list(faults_of_entry(entry, now))
    if wrong:
        raise RowError(wrong)
    return entry


def _entry(cells: Mapping[str, str], now: datetime) -> Entry:
    return Entry(
        uid=cells.get("uid", "").strip(),
        place=_place(cells),
        kind=_kind(cells),
        value=_value(cells),
        on=_day(cells),
        recorded_at=_instant(cells) or now,
        person=_name("person", cells),
        channel=cells.get("channel", "") or IMPORTED,
        message=cells.get("message", "") or None,
        note=cells["note"],
    )


def near_words(word: str, known: Iterable[str]) -> str:
    """Name the known words an unknown one is like: "; did you mean eggs, no_eggs?", or nothing."""
    found = process.extract(word.lower(), list(known), scorer=fuzz.ratio, limit=3)
    near = [like for like, score, _ in found if score >= _NEAR]
    return f"; did you mean {', '.join(near)}?" if near else ""


def _unfit_texts(cells: Mapping[str, str]) -> list[str]:
    long = [
        f"{column} has more than {most} characters"
        for column, most in _LONGEST.items()
        if len(cells.get(column, "")) > most
    ]
    return long + [f"{column} holds a null" for column, cell in cells.items() if "\0" in cell]


def _faults(cells: Mapping[str, str]) -> Iterator[str]:
    for read in (_day, _place, _value, partial(_name, "person"), _instant):
        try:
            read(cells)
        except ValueError as error:
            yield str(error)


def _kind(cells: Mapping[str, str]) -> EntryKind:
    word = cells["kind"].strip().lower()
    if not word:
        raise ValueError("kind is blank")
    if word not in set(EntryKind):
        raise ValueError(f"{word!r} is not a kind of entry{near_words(word, EntryKind)}")
    return EntryKind(word)


def _value(cells: Mapping[str, str]) -> Value | None:
    return value_from_text(_kind(cells), cells["value"])


def _day(cells: Mapping[str, str]) -> date:
    cell = cells["on"].strip()
    try:
        if _DAY.fullmatch(cell):
            return date.fromisoformat(cell)
    except ValueError:
        pass
    raise ValueError(f"on must be a day such as 2027-05-12, not {cell!r}")


def _place(cells: Mapping[str, str]) -> Place:
    unit = cells["unit"].strip()
    named = UnitName.parse(unit) if unit else None
    return Place(_name("yard", cells), named, cells.get("batch", "") or None)


def _name(column: str, cells: Mapping[str, str]) -> str:
    if not cells[column].strip():
        raise ValueError(f"{column} is blank")
    return tidy(cells[column])


def _instant(cells: Mapping[str, str]) -> datetime | None:
    cell = cells.get("recorded_at", "").strip()
    if not cell:
        return None
    try:
        instant = datetime.fromisoformat(cell)
        if instant.utcoffset() is not None:
            return instant.astimezone(UTC)
    except (ValueError, OverflowError):
        pass
    raise ValueError(f"recorded_at must be such as 2027-05-12T15:30:00Z, not {cell!r}")
