"""A file of another season, or another machine, becomes part of a crew's log."""

import io
import shutil
from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import Engine
from sqlalchemy.orm import Session

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.csv_file import read_rows, write_entries
from scheduling.records.engine import open_engine, reading, writing
from scheduling.records.imports import ImportReport, import_entries
from scheduling.records.tables import Role
from scheduling.values import Struck, VirginAge

Noted = Callable[..., Entry]


def export(records: CrewRecords) -> str:
    stream = io.StringIO(newline="")
    write_entries(records.entries(), stream)
    return stream.getvalue()


def test_what_the_crew_lacks_is_made(records: CrewRecords, noted: Noted, now: datetime) -> None:
    report = import_entries(
        records,
        [
            noted("1a", EntryKind.EGGS, yard="Hill", person="Ben"),
            noted("1b", EntryKind.EGGS, yard="HILL", person="ben"),
            noted("4b", EntryKind.EGGS, yard="river"),
            noted("9", EntryKind.EGGS),
            noted(None, EntryKind.NOTE, yard="Meadow", text="mown"),
        ],
        now,
    )
    assert report == ImportReport(
        5, 0, ("Hill", "Meadow"), ("Hill 1a", "Hill 1b", "River 9"), ("Ben",)
    )
    assert records.yard("Hill").zone == "America/Chicago"
    ben = records.people()[1]
    assert (ben.name, ben.role, ben.next_morning_at) == ("Ben", Role.KEEPER, None)
    assert [str(entry.place) for entry in records.entries()][:2] == ["Hill 1a", "Hill 1b"]


def test_the_same_file_again_adds_nothing(
    records: CrewRecords, noted: Noted, now: datetime
) -> None:
    said = [noted("4a", EntryKind.EGGS), noted("5a", EntryKind.EGGS)]
    import_entries(records, said, now)
    before = records.entries()
    assert import_entries(records, said, now) == ImportReport(0, 2, (), (), ())
    assert records.entries() == before


def test_what_is_there_stays_as_it_is(records: CrewRecords, noted: Noted, now: datetime) -> None:
    eggs = noted("4a", EntryKind.EGGS)
    records.append([eggs])
    import_entries(records, [replace(eggs, kind=EntryKind.NO_EGGS)], now)
    assert records.entries() == (eggs,)


def test_an_import_that_fails_leaves_nothing_behind(
    engine: Engine, noted: Noted, now: datetime
) -> None:
    with writing(engine) as session:
        crew, _ = found_crew(session, "Bees", "Ann", "UTC", now)
    eggs = noted("1a", EntryKind.EGGS, yard="Hill")
    with pytest.raises(ValueError, match="one uid"), writing(engine) as session:
        import_entries(CrewRecords(session, crew.id), [eggs, eggs], now)
    with reading(engine) as session:
        records = CrewRecords(session, crew.id)
        assert (records.yards(), records.entries()) == ((), ())


def a_season(noted: Noted) -> list[Entry]:
    placed = noted("4b", EntryKind.VIRGIN_PLACED, VirginAge(1.5), on=date(2027, 5, 1))
    return [
        placed,
        noted("4c", EntryKind.NOTE, text='odd, "very"\r\nodd', message="7"),
        noted("4b", EntryKind.STRIKE, Struck(placed.uid)),
        replace(noted(None, EntryKind.GRAFTED), place=Place("River", batch="2 May")),
    ]


def test_a_log_exported_and_imported_elsewhere_exports_the_same_bytes(
    records: CrewRecords, noted: Noted, now: datetime, tmp_path: Path, made_once: Path
) -> None:
    records.append(a_season(noted))
    first = export(records)
    elsewhere = open_engine(f"sqlite:///{shutil.copy(made_once, tmp_path / 'elsewhere.sqlite')}")
    with writing(elsewhere) as session:
        crew, _ = found_crew(session, "Elsewhere", "Owner", "UTC", now)
        theirs = CrewRecords(session, crew.id)
        import_entries(theirs, read_rows(io.StringIO(first, newline=""), now), now)
    with reading(elsewhere) as session:
        assert export(CrewRecords(session, crew.id)) == first
    elsewhere.dispose()


def test_an_import_reaches_no_other_crew(
    session: Session, records: CrewRecords, noted: Noted, now: datetime
) -> None:
    records.append(a_season(noted))
    crew, _ = found_crew(session, "Strangers", "Sam", "UTC", now)
    before = export(records)
    report = import_entries(CrewRecords(session, crew.id), records.entries(), now)
    assert (report.added, report.already_there, report.new_yards) == (4, 0, ("River",))
    assert export(records) == before


# Letters that cannot be seen are written as a space or left out: a cell starts no escape code.
texts = st.text(st.characters(exclude_categories=["Cs", "Cc", "Cf", "Zl", "Zp"]), max_size=20)


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(notes=st.lists(texts, max_size=8), box=st.integers(1, 9999))
def test_any_notes_go_round_exactly(
    engine: Engine, now: datetime, notes: list[str], box: int
) -> None:
    place = Place("River", UnitName(box))
    said = [
        Entry(f"n{number}", place, EntryKind.NOTE, None, now.date(), now, "Ann", "import", None, n)
        for number, n in enumerate(notes)
    ]
    with writing(engine) as session:
        crew, _ = found_crew(session, "Bees", "Ann", "UTC", now)
        records = CrewRecords(session, crew.id)
        import_entries(records, said, now)
        assert read_rows(io.StringIO(export(records), newline=""), now) == said
