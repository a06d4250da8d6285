"""The log as a file that any spreadsheet opens, and any keeper's file as entries."""

import csv
import io
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records import csv_file
from scheduling.records.csv_file import (
    LONGEST_LINE,
    BadRowsError,
    read_file,
    read_rows,
    write_entries,
    write_file,
)
from scheduling.records.csv_rows import COLUMNS
from scheduling.values import CellAge, Feed, Stores

Noted = Callable[..., Entry]

HEADER = "on,yard,unit,kind,value,person,note"


def read(text: str, now: datetime) -> list[Entry]:
    return read_rows(io.StringIO(text, newline=""), now)


def faults(text: str, now: datetime) -> list[str]:
    with pytest.raises(BadRowsError) as refused:
        read(text, now)
    return str(refused.value).splitlines()


def export(entries: list[Entry]) -> str:
    stream = io.StringIO(newline="")
    write_entries(entries, stream)
    return stream.getvalue()


def test_a_keeper_s_file_of_seven_columns(now: datetime) -> None:
    cell, fed, gate = read(
        f"{HEADER}\n"
        "2027-05-10,River,4b,cell_placed,14e,Ann,\n"
        "2027-05-11,River,7,Fed,syrup_litres=0.946; ratio=1:1,Ann,one jar\n"
        "2027-05-11,River,,note,,Ben,gate is stiff\n",
        now,
    )
    assert (cell.place, cell.value) == (
        Place("River", UnitName(4, "b")),
        CellAge(days_since_egg=14),
    )
    assert (fed.on, fed.value, fed.note) == (date(2027, 5, 11), Feed(0.946, "1:1"), "one jar")
    assert (gate.place, gate.value, gate.person) == (Place("River"), None, "Ben")
    assert {(e.channel, e.message, e.recorded_at) for e in (cell, fed, gate)} == {
        ("import", None, now)
    }


def test_columns_may_stand_in_any_order(now: datetime) -> None:
    (entry,) = read(
        "Note, Kind ,person,yard,unit,on,value\nlow,stores,Ann,River,4a,2027-05-10,0.5\n", now
    )
    assert (entry.kind, entry.value, entry.note) == (EntryKind.STORES, Stores(0.5), "low")


def test_lines_a_spreadsheet_leaves_blank_are_passed_over(now: datetime) -> None:
    text = f"{HEADER}\r\n\r\n2027-05-10,River,4a,eggs,,Ann,\r\n,,,,,,\r\n"
    assert len(read(text, now)) == 1


def test_a_file_with_a_header_alone_holds_nothing(now: datetime) -> None:
    assert read(HEADER, now) == []


def test_rfc_4180_form(noted: Noted) -> None:
    """Lines end in CR LF; cells with commas, quotes or line ends are quoted, quotes doubled.

    Source: RFC 4180, "Common Format and MIME Type for Comma-Separated Values (CSV) Files",
    Y. Shafranovich, IETF 2005, section 2, rules 1, 6 and 7; www.ietf.org/rfc/rfc4180.txt.
    """
    entry = noted("4b", EntryKind.NOTE, uid="e1", text='temper "bad",\r\nstung')
    assert export([entry]) == (
        "on,yard,unit,kind,value,person,note,batch,uid,recorded_at,channel,message\r\n"
        '2027-05-12,River,4b,note,,Ann,"temper ""bad"",\r\nstung",'
        ",e1,2027-05-12T15:30:00Z,console,\r\n"
    )


def test_rfc_4180_examples_are_read(now: datetime) -> None:
    """Rules 2 and 5: the last line may have no end; any cell may be quoted. Source as above."""
    (entry,) = read(f'{HEADER}\r\n"2027-05-10","River","4a","eggs","","Ann","b\r\nbb ""c"""', now)
    assert entry.note == 'b\r\nbb "c"'


@pytest.mark.parametrize(
    "note", ["a\rb", "a\nb", "a\r\n", " two  spaces ", '"', "", "=1+1", "\u00fc"]
)
def test_a_note_comes_back_to_the_letter(noted: Noted, now: datetime, note: str) -> None:
    entry = noted("4b", EntryKind.NOTE, text=note)
    assert read(export([entry]), now) == [entry]


def test_an_entry_comes_back_whole(noted: Noted, now: datetime) -> None:
    said = [
        noted("4b", EntryKind.EGGS, message="17"),
        Entry(
            uid="batch-1",
            place=Place("River", batch="2 May"),
            kind=EntryKind.GRAFTED,
            value=None,
            on=date(2027, 5, 2),
            recorded_at=datetime(2027, 5, 2, 15, 30, 1, 250, tzinfo=UTC),
            person="Ann",
            channel="telegram",
        ),
    ]
    assert read(export(said), now) == said


def test_a_file_with_or_without_byte_order_mark(
    tmp_path: Path, noted: Noted, now: datetime
) -> None:
    said = [noted("4b", EntryKind.NOTE, text="\u00fcber")]
    plain, marked = tmp_path / "plain.csv", tmp_path / "marked.csv"
    write_file(said, plain)
    marked.write_bytes(b"\xef\xbb\xbf" + plain.read_bytes())
    assert read_file(plain, now) == read_file(marked, now) == said


def test_another_reader_of_csv_finds_the_same_cells(noted: Noted, tmp_path: Path) -> None:
    write_file([noted("4b", EntryKind.NOTE, text="a, b")], tmp_path / "out.csv")
    with (tmp_path / "out.csv").open(newline="", encoding="utf-8") as stream:
        (row,) = csv.DictReader(stream)
    assert list(row) == list(COLUMNS)
    assert (row["unit"], row["note"]) == ("4b", "a, b")


def test_a_row_without_uid_gets_the_same_one_each_time(now: datetime) -> None:
    row = "2027-05-10,River,4a,eggs,,Ann,\n"
    twice = read(f"{HEADER}\n{row}{row}", now)
    assert len({entry.uid for entry in twice}) == 2
    again = read(f"{HEADER}\n{row}{row}{row.replace('4a', '4b')}", now)
    assert [entry.uid for entry in again[:2]] == [entry.uid for entry in twice]
    (other_capitals,) = read(f"{HEADER}\n{row.replace('River', 'RIVER')}", now)
    assert other_capitals.uid == twice[0].uid


def test_every_bad_row_is_named_by_its_line(now: datetime) -> None:
    text = (
        f"{HEADER}\n"
        "10 May,River,4b,eggs,,Ann,\n"
        '2027-05-10,River,4b,note,,Ann,"two\nlines"\n'
        "2027-05-10,River,4z,eggs,,Ann,\n"
        "2027-05-10,River,4b,egs,,Ann,\n"
        "2027-05-10,,4b,fed,syrup_litres=lots,,\n"
        "2027-05-10,River,4b\n"
    )
    assert faults(text, now) == [
        "line 2: on must be a day such as 2027-05-12, not '10 May'",
        "line 5: '4z' is not a unit; write a box number and a letter, as in 4b",
        "line 6: 'egs' is not a kind of entry; did you mean eggs, no_eggs?",
        "line 7: yard is blank",
        "line 7: syrup_litres must be a number such as 0.5, not 'lots'",
        "line 7: person is blank",
        "line 8: has 3 cells, but the first line names 7 columns",
    ]


def test_a_kind_like_no_other_is_named_alone(now: datetime) -> None:
    assert faults(f"{HEADER}\n2027-05-10,River,4b,zzzz,,Ann,\n", now) == [
        "line 2: 'zzzz' is not a kind of entry"
    ]


def test_one_uid_cannot_stand_in_two_rows(now: datetime) -> None:
    row = "2027-05-10,River,4b,eggs,,Ann,,e1\n"
    assert faults(f"{HEADER},uid\n{row}\n{row}", now) == [
        "line 4: its uid 'e1' stands in line 2 too"
    ]


@pytest.mark.parametrize(
    ("columns", "cells", "fault"),
    [
        ("batch", "2 May", "a place is a unit or a batch, not both"),
        ("recorded_at", "2027-05-12T15:30", "recorded_at must be such as 2027-05-12T15:30:00Z"),
        ("recorded_at", "noon", "recorded_at must be such as"),
        ("uid", "x" * 65, "uid has more than 64 characters"),
        ("message", "a\0b", "message holds a null"),
    ],
)
def test_the_columns_that_complete_a_row_are_looked_at_too(
    now: datetime, columns: str, cells: str, fault: str
) -> None:
    (found,) = faults(f"{HEADER},{columns}\n2027-05-10,River,4b,eggs,,Ann,,{cells}\n", now)
    assert found.startswith(f"line 2: {fault}")


@pytest.mark.parametrize(
    ("header", "wrong"),
    [
        ("", ["line 1: must name the columns on, yard, unit, kind, value, person, note"]),
        (f"{HEADER},unid", ["line 1: 'unid' is not a column; did you mean uid, unit?"]),
        ("on,yard,unit,kind,value,person", ["line 1: the column note is missing"]),
        (f"{HEADER},on", ["line 1: the column on is there twice"]),
    ],
)
def test_the_first_line_must_name_the_columns(now: datetime, header: str, wrong: list[str]) -> None:
    assert faults(f"{header}\n1,2,3\n", now) == wrong


def test_a_quote_that_does_not_close(now: datetime) -> None:
    (found,) = faults(f'{HEADER}\n2027-05-10,River,4b,eggs,,Ann,\n2027-05-11,"River,4b\n\n', now)
    assert found.startswith("line 3: cannot be split into cells")


def test_a_file_in_another_encoding_is_named_by_its_line(tmp_path: Path, now: datetime) -> None:
    file = tmp_path / "old.csv"
    file.write_bytes(f"{HEADER}\n2027-05-10,River,4b,note,,Ann,\u00fcber\n".encode("latin-1"))
    with pytest.raises(BadRowsError, match="line 2: is not UTF-8"):
        read_file(file, now)


@pytest.mark.parametrize(
    "row",
    [
        "9999-12-31,River,1a,eggs,,Ada,",
        "0001-01-01,River,1a,cell_placed,10,Ada,",
        "9999-12-01,River,1a,cell_placed,10,Ada,",
        "2027-05-10,River,1a,cell_placed,99999999999,Ada,",
        "2027-05-10,River,1a,put_off,9999-12-31,Ada,",
    ],
)
def test_what_would_break_the_calendar_is_named_by_its_line(row: str, now: datetime) -> None:
    (fault,) = faults(f"{HEADER}\n2027-05-10,River,1b,eggs,,Ada,\n{row}\n", now)

    assert fault.startswith("line 3: ")
    assert "must be" in fault


@pytest.mark.parametrize(
    "at", ["9999-12-31T23:59:59-14:00", "0001-01-01T00:00:00+14:00", "0001-01-01T00:00:00Z"]
)
def test_an_instant_at_the_ends_of_time_is_named_by_its_line(at: str, now: datetime) -> None:
    (fault,) = faults(f"{HEADER},recorded_at\n2027-05-10,River,1b,eggs,,Ada,,{at}\n", now)

    assert fault.startswith("line 2: recorded_at must be")


@pytest.mark.parametrize(
    "note", ["=1+1", "+44 20", "-2 frames", "@SUM(A1)", "\tx", "'=1", "''@", "'s"]
)
def test_no_cell_is_a_formula_and_all_come_back(noted: Noted, now: datetime, note: str) -> None:
    written = export([noted(None, EntryKind.NOTE, text=note)])

    (_, row) = csv.reader(io.StringIO(written, newline=""))
    assert not any(cell.startswith(("=", "+", "-", "@", "\t")) for cell in row)
    assert [entry.note for entry in read(written, now)] == [note]


def test_no_cell_starts_an_escape_of_the_terminal(noted: Noted) -> None:
    text = "calm\x1b]0;owned\x07 \u202ebees\x9b2J"
    written = export([noted(None, EntryKind.NOTE, text=text)])

    assert "calm]0;owned bees2J" in written
    assert written.replace("\r\n", "").isprintable()


def test_names_come_in_as_they_are_seen(now: datetime) -> None:
    (entry,) = read(f"{HEADER}\n2027-05-10,Ri\u200bver,1b,eggs,,\x1b[1mAda\u202e,\n", now)

    assert (entry.place.yard, entry.person) == ("River", "[1mAda")


def test_a_line_without_an_end_is_not_read_to_its_end(tmp_path: Path, now: datetime) -> None:
    file = tmp_path / "endless"
    with file.open("wb") as hole:
        hole.truncate(10_000_000_000)

    with pytest.raises(BadRowsError, match=f"line 1: is longer than {LONGEST_LINE:,} characters"):
        read_file(file, now)


def test_more_rows_than_fit_are_refused(monkeypatch: pytest.MonkeyPatch, now: datetime) -> None:
    monkeypatch.setattr(csv_file, "MOST_ROWS", 2)
    row = "2027-05-10,River,1b,eggs,,Ada,\n"

    assert len(read(f"{HEADER}\n{row * 2}\n\n", now)) == 2
    assert faults(f"{HEADER}\n{row * 3}", now) == ["line 4: is beyond 2 rows; cut the file in two"]
