"""The table of entries as a CSV file: all of a crew's log out, and rows of any keeper in.

The form is that of RFC 4180, "Common Format and MIME Type for Comma-Separated Values (CSV)
Files", Y. Shafranovich, IETF 2005: commas, double quotes, lines ending in CR LF; in UTF-8.
"""

import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import TextIO
from uuid import UUID, uuid5

from scheduling.entries import Entry
from scheduling.plain_text import without_controls
from scheduling.records.crews import folded
from scheduling.records.csv_rows import (
    COLUMNS,
    KEEPERS_COLUMNS,
    Problem,
    RowError,
    cells_of,
    entry_of_cells,
    near_words,
)

MOST_ROWS = 100_000
"""Rows of one file; sixty units write some thousand in a season."""

LONGEST_LINE = 131_072
"""Characters of one line; a note is as long as a message at the most."""

_HALF_A_PAIR = re.compile("[\ud800-\udfff]")
"""How Python reads an octet that is not of UTF-8, when it is told to go on."""

_BYTE_ORDER_MARK = "\ufeff"

_ROWS_WITHOUT_UID = UUID("5f0c3c5e-5a0e-4a53-9d0f-2b7f6f1c9a11")
"""The namespace of the uids made from what a row says; any fixed number would do."""


class BadRowsError(Exception):
    """A file cannot be imported; ``problems`` names every bad line, and none was taken."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(str(problem) for problem in self.problems))


def write_entries(entries: Iterable[Entry], stream: TextIO) -> None:
    """Write a header and one row for each entry; open the stream with ``newline=""``."""
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    writer.writerows([_safe(cell) for cell in cells_of(entry)] for entry in entries)


def write_file(entries: Iterable[Entry], path: Path) -> None:
    """Write entries to a CSV file, in place of what it held."""
    text = io.StringIO(newline="")
    write_entries(entries, text)
    path.write_bytes(text.getvalue().encode())


_FORMULA = re.compile(r"'*[=+\-@\t]")
"""How a cell begins that a spreadsheet takes for a formula, with quotes that were put before."""


def _safe(cell: str) -> str:
    """Put a cell so that it starts neither a formula in a spreadsheet nor a terminal's escape."""
    cell = without_controls(cell)
    return f"'{cell}" if _FORMULA.match(cell) else cell


def _as_it_was(cell: str) -> str:
    """Take the quote off again that ``_safe`` puts before."""
    return cell[1:] if cell.startswith("'") and _FORMULA.match(cell) else cell


def read_rows(stream: TextIO, now: datetime) -> list[Entry]:
    """Read every row, or none; open the stream with ``newline=""``.

    The seven keeper's columns must be there, in any order, others of an export may be. A row
    without a uid gets one made from what it says, so that the same file read twice gives the same
    entries. ``now`` is the instant of recording of rows that name none.

    Raises:
        BadRowsError: every line with a fault, and what it is.
    """
    problems: list[Problem] = []
    read: list[tuple[int, Entry]] = []
    for line, cells in _rows(stream, problems):
        try:
            read.append((line, entry_of_cells(cells, now)))
        except RowError as error:
            problems.extend(Problem(line, wrong) for wrong in error.wrong)
    problems.extend(_uids_given_twice(read))
    if problems:
        raise BadRowsError(sorted(problems, key=lambda problem: problem.line))
    return _with_uids(entry for _, entry in read)


def read_file(path: Path, now: datetime) -> list[Entry]:
    """Read a CSV file in UTF-8, with or without a byte order mark, as ``read_rows`` does.

    Raises:
        BadRowsError: every line with a fault, and what it is.
        OSError: the file cannot be read.
    """
    with path.open(encoding="utf-8", errors="surrogateescape", newline="") as stream:
        return read_rows(stream, now)


def _rows(stream: TextIO, problems: list[Problem]) -> Iterator[tuple[int, dict[str, str]]]:
    """Give each row that is not blank by column, with the line on which it begins."""
    lines = _numbered_rows(stream, problems)
    _, header = next(lines, (1, []))
    columns = [column.strip().lower() for column in header]
    wrong = _wrong_with_header(columns)
    if wrong:
        problems.extend(Problem(1, fault) for fault in wrong if not problems)
        return
    rows = 0
    for line, cells in lines:
        if not any(cell.strip() for cell in cells):
            continue
        rows += 1
        if rows > MOST_ROWS:
            too_many = f"is beyond {MOST_ROWS:,} rows; cut the file in two"
            raise BadRowsError([Problem(line, too_many)])
        if len(cells) == len(columns):
            yield line, dict(zip(columns, map(_as_it_was, cells), strict=True))
        else:
            wrong_count = f"has {len(cells)} cells, but the first line names {len(columns)} columns"
            problems.append(Problem(line, wrong_count))


def _numbered_rows(stream: TextIO, problems: list[Problem]) -> Iterator[tuple[int, list[str]]]:
    reader = csv.reader(_lines(stream), strict=True)
    line = 1
    try:
        for cells in reader:
            yield line, cells
            line = reader.line_num + 1
    except csv.Error as error:
        # Past a quote that does not close, nothing can be told from anything else.
        problems.append(Problem(line, f"cannot be split into cells ({error})"))


def _lines(stream: TextIO) -> Iterator[str]:
    """Give the lines one by one, the first without its mark, and no more of one than is fit."""
    number = 0
    while line := stream.readline(LONGEST_LINE):
        number += 1
        if len(line) == LONGEST_LINE and not line.endswith(("\n", "\r")):
            raise BadRowsError([Problem(number, f"is longer than {LONGEST_LINE:,} characters")])
        if not line.isascii() and _HALF_A_PAIR.search(line):
            raise BadRowsError([Problem(number, "is not UTF-8; save the file as CSV UTF-8")])
        yield line.removeprefix(_BYTE_ORDER_MARK) if number == 1 else line


def _wrong_with_header(columns: list[str]) -> list[str]:
    if not columns:
        return [f"must name the columns {', '.join(KEEPERS_COLUMNS)}"]
    strange = [
        f"{column!r} is not a column{near_words(column, COLUMNS)}"
        for column in columns
        if column not in COLUMNS
    ]
    missing = [f"the column {c} is missing" for c in KEEPERS_COLUMNS if c not in columns]
    twice = [f"the column {c} is there twice" for c, n in Counter(columns).items() if n > 1]
    return strange + missing + twice


def _uids_given_twice(read: list[tuple[int, Entry]]) -> Iterator[Problem]:
    first: dict[str, int] = {}
    for line, entry in read:
        if entry.uid and entry.uid in first:
            yield Problem(line, f"its uid {entry.uid!r} stands in line {first[entry.uid]} too")
        first.setdefault(entry.uid, line)


def _with_uids(entries: Iterable[Entry]) -> list[Entry]:
    times: Counter[str] = Counter()
    named = []
    for entry in entries:
        says = _says(entry)
        times[says] += not entry.uid
        uid = entry.uid or uuid5(_ROWS_WITHOUT_UID, f"{times[says]}\x1f{says}").hex
        named.append(replace(entry, uid=uid))
    return named


def _says(entry: Entry) -> str:
    cells = dict(zip(COLUMNS, cells_of(entry), strict=True))
    cells |= {"yard": folded(entry.place.yard), "person": folded(entry.person)}
    return "\x1f".join(cells[column] for column in (*KEEPERS_COLUMNS, "batch"))
