"""What a process knows of a log is the log, whoever wrote since."""

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import datetime

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import Engine, delete, event, func, select, text

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import UnitName
from scheduling.records.append_only import triggers
from scheduling.records.engine import open_engine, reading, writing
from scheduling.records.gateway import CrewRecords, found_crew
from scheduling.records.memory import Memory
from scheduling.records.tables import EntryRow
from tests.scheduling.records.conftest import Noted

ORDERS = st.lists(st.tuples(st.integers(0, 1), st.sampled_from(["write", "read", "fail"])))


def _crew(engine: Engine, now: datetime) -> int:
    with writing(engine) as session:
        crew, _ = found_crew(session, "Ann's bees", "Ann", "America/Chicago", now)
        records = CrewRecords(session, crew.id)
        records.add_yard("River", "America/Chicago")
        records.add_units("River", [UnitName.parse(name) for name in ("4a", "4b")])
    return crew.id


def _read(engine: Engine, crew: int) -> tuple[Entry, ...]:
    with reading(engine) as session:
        return CrewRecords(session, crew).entries()


def _write(engine: Engine, crew: int, entry: Entry) -> None:
    with writing(engine) as session:
        records = CrewRecords(session, crew)
        records.append([entry])
        records.entries()


class _UndoneError(Exception):
    """The transaction is undone."""


def _fail(engine: Engine, crew: int, entry: Entry) -> None:
    """Write, read what was written, and undo it."""
    with suppress(_UndoneError), writing(engine) as session:
        records = CrewRecords(session, crew)
        records.append([entry])
        assert records.entries()[-1] == entry
        raise _UndoneError


@contextmanager
def _rows_read(engine: Engine) -> Iterator[list[str]]:
    """The statements that read entries with their values."""
    said: list[str] = []

    def note(*told: object) -> None:
        statement = str(told[2])
        if "entry.value" in statement:
            said.append(statement)

    event.listen(engine, "before_cursor_execute", note)
    yield said
    event.remove(engine, "before_cursor_execute", note)


@settings(
    max_examples=25,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(ORDERS)
def test_two_workers_know_the_same_log_in_whatever_order_they_write(
    database: str, noted: Noted, now: datetime, order: list[tuple[int, str]]
) -> None:
    workers = (open_engine(database), open_engine(database))
    crew = _crew(workers[0], now)
    written: list[Entry] = []
    for who, what in order:
        entry = noted("4a", EntryKind.EGGS)
        if what == "write":
            _write(workers[who], crew, entry)
            written.append(entry)
        elif what == "fail":
            _fail(workers[who], crew, entry)
        assert _read(workers[who], crew) == tuple(written)
    assert _read(workers[0], crew) == _read(workers[1], crew) == tuple(written)
    for worker in workers:
        worker.dispose()


def test_what_is_known_is_not_read_again(engine: Engine, noted: Noted, now: datetime) -> None:
    crew = _crew(engine, now)
    for _ in range(5):
        _write(engine, crew, noted("4b", EntryKind.EGGS))
    with _rows_read(engine) as said:
        assert _read(engine, crew) is _read(engine, crew)
    assert all("entry.seq >=" in statement for statement in said)


def test_what_was_made_since_the_log_was_read_can_be_spoken_of(
    engine: Engine, noted: Noted, now: datetime
) -> None:
    crew = _crew(engine, now)
    with writing(engine) as session:
        records = CrewRecords(session, crew)
        assert (records.entries(), list(records.known_yards().by_yard)) == ((), ["River"])
        records.add_yard("Hill", "UTC")
        records.add_units("Hill", [UnitName(9)])
        records.add_person("Ben", zone="UTC", now=now)
        told = noted("9", EntryKind.EGGS, yard="hill", person="BEN")
        records.append([told])
        (entry,) = records.entries()
        assert (entry.uid, str(entry.place), entry.person) == (told.uid, "Hill 9", "Ben")
        assert records.known_yards().by_yard["Hill"] == (UnitName(9),)


def _write_after_reading(engine: Engine, crew: int, entry: Entry) -> None:
    with writing(engine) as session:
        records = CrewRecords(session, crew)
        records.entries()
        records.known_yards()
        records.append([entry])


def test_a_strange_unit_is_refused_also_after_the_log_was_read(
    engine: Engine, noted: Noted, now: datetime
) -> None:
    crew = _crew(engine, now)
    with pytest.raises(LookupError, match="no unit River 9"):
        _write_after_reading(engine, crew, noted("9", EntryKind.EGGS))


def test_a_known_entry_is_refused_also_after_the_log_was_read(
    engine: Engine, noted: Noted, now: datetime
) -> None:
    crew, told = _crew(engine, now), noted("4a", EntryKind.EGGS)
    _write(engine, crew, told)
    with pytest.raises(ValueError, match="in the log already"):
        _write_after_reading(engine, crew, told)


def test_a_renamed_keeper_stands_under_the_new_name(
    engine: Engine, noted: Noted, now: datetime
) -> None:
    crew = _crew(engine, now)
    _write(engine, crew, noted("4a", EntryKind.EGGS))
    with writing(engine) as session:
        records = CrewRecords(session, crew)
        records.update_person(records.people()[0].id, name="Anna")
    assert [entry.person for entry in _read(engine, crew)] == ["Anna"]


@pytest.mark.parametrize("kept", [0, 1, 2])
def test_a_backup_put_in_its_place_is_noticed(
    engine: Engine, noted: Noted, now: datetime, kept: int
) -> None:
    """As many rows as before or fewer, under the same numbers, and other entries."""
    crew = _crew(engine, now)
    before = [noted("4a", EntryKind.EGGS) for _ in range(3)]
    for entry in before:
        _write(engine, crew, entry)
    _put_back(engine, crew, kept)
    other = [noted("4b", EntryKind.NO_EGGS) for _ in range(kept, 3)]
    worker = open_engine(engine.url)
    for entry in other:
        _write(worker, crew, entry)
    worker.dispose()
    assert _read(engine, crew) == (*before[:kept], *other)


def _put_back(engine: Engine, crew: int, kept: int) -> None:
    """Leave the first entries only, past the guard of the log, and the numbers as they were."""
    served = engine.dialect.name == "postgresql"
    guards = ["entry_no_change"] if served else ["entry_no_update", "entry_no_delete"]
    with engine.begin() as connection:
        for guard in guards:
            connection.execute(text(f"DROP TRIGGER {guard}{' ON entry' if served else ''}"))
        of_crew = select(EntryRow.seq).where(EntryRow.crew_id == crew)
        first = of_crew.order_by(EntryRow.seq).limit(kept)
        stays = EntryRow.seq.in_(connection.scalars(first).all())
        connection.execute(delete(EntryRow).where(EntryRow.crew_id == crew, ~stays))
        for statement in triggers(engine.dialect.name):
            connection.exec_driver_sql(statement)
        if served:
            set_number = "SELECT setval('entry_seq_seq', {} + 1, false)"
        else:
            set_number = "UPDATE sqlite_sequence SET seq = {}"
        last = connection.scalar(select(func.coalesce(func.max(EntryRow.seq), 0)))
        connection.exec_driver_sql(set_number.format(last))


def test_the_crews_served_longest_ago_are_forgotten() -> None:
    memory = Memory(crews=2)
    for crew in (1, 2, 1, 3):
        memory.remember(crew, {str: f"of {crew}"})
    assert [memory.recall(crew, str) for crew in (1, 2, 3)] == ["of 1", None, "of 3"]


def test_whoever_has_read_the_log_is_given_it_with_what_is_added(
    records: CrewRecords, noted: Noted
) -> None:
    first, second = noted("4a", EntryKind.EGGS), noted("4b", EntryKind.EGGS)
    assert records.append([first]) is None
    assert records.entries() == (first,)
    assert records.append([second]) == (first, second) == records.entries()
