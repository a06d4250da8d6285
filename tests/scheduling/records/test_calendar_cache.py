"""What a process has cached of a crew is its log and its calendar, whoever wrote since."""

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import datetime

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import Engine, delete, event, func, select, text

from scheduling.checks.calendar import Calendar, work_out
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import UnitName
from scheduling.records.append_only import triggers
from scheduling.records.calendar_cache import CachedCrew, CachedLog, CalendarCache
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.engine import open_engine, reading, writing
from scheduling.records.tables import EntryRow
from scheduling.values import Stores
from scheduling.walk.odds import USUAL, Odds, settled
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
        assert (records.entries(), list(records.at_a_glance().by_yard)) == ((), ["River"])
        records.add_yard("Hill", "UTC")
        records.add_units("Hill", [UnitName(9)])
        records.add_person("Ben", zone="UTC", now=now)
        told = noted("9", EntryKind.EGGS, yard="hill", person="BEN")
        records.append([told])
        (entry,) = records.entries()
        assert (entry.uid, str(entry.place), entry.person) == (told.uid, "Hill 9", "Ben")
        assert records.at_a_glance().by_yard["Hill"] == (UnitName(9),)


def _write_after_reading(engine: Engine, crew: int, entry: Entry) -> None:
    with writing(engine) as session:
        records = CrewRecords(session, crew)
        records.entries()
        records.at_a_glance()
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
        records.entries()
        records.update_person(records.people()[0].id, name="Anna")
        assert [entry.person for entry in records.entries()] == ["Anna"]
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


def _of(*entries: Entry) -> CachedCrew:
    return CachedCrew(CachedLog(entries, last=len(entries)))


def test_the_crews_served_longest_ago_are_forgotten_when_too_many_entries_are_held(
    noted: Noted,
) -> None:
    cache = CalendarCache(most_entries=4)
    told = noted("4a", EntryKind.EGGS)
    for crew in (1, 2, 1, 3):
        cache.put(crew, _of(told, told))
    assert [cache.get(crew).log is None for crew in (1, 2, 3)] == [False, True, False]


def test_a_crew_too_large_for_the_cache_is_held_until_the_next(noted: Noted) -> None:
    cache = CalendarCache(most_entries=1)
    large = _of(noted("4a", EntryKind.EGGS), noted("4b", EntryKind.EGGS))
    cache.put(1, large)
    assert cache.get(1) == large
    cache.put(2, large)
    assert cache.get(1) == CachedCrew()


def test_a_log_is_whole_after_each_entry_of_one_transaction(
    records: CrewRecords, noted: Noted
) -> None:
    first, second = noted("4a", EntryKind.EGGS), noted("4b", EntryKind.EGGS)
    records.append([first])
    assert records.entries() == (first,)
    records.append([second])
    assert records.entries() == (first, second)


def _calendar(records: CrewRecords, odds: Odds = USUAL, feeder_litres: float = 1.0) -> Calendar:
    return records.calendar(records.entries(), {}, odds, feeder_litres)


def test_a_calendar_is_given_again_while_nothing_was_told(
    engine: Engine, noted: Noted, now: datetime
) -> None:
    crew = _crew(engine, now)
    _write(engine, crew, noted("4a", EntryKind.CELL_PLACED))
    found = []
    for _ in range(2):
        with reading(engine) as session:
            found.append(_calendar(CrewRecords(session, crew)))
    assert found[0] is found[1]


def test_each_size_of_feeder_and_odds_has_its_own_calendar(
    engine: Engine, noted: Noted, now: datetime
) -> None:
    crew = _crew(engine, now)
    _write(engine, crew, noted("4a", EntryKind.EGGS))
    _write(engine, crew, noted("4a", EntryKind.STORES, Stores(0.25)))
    with reading(engine) as session:
        records = CrewRecords(session, crew)
        small, large = _calendar(records, feeder_litres=0.5), _calendar(records, feeder_litres=2.0)
        again = _calendar(records, feeder_litres=0.5)
        assert small is again != large
        assert _calendar(records, settled(0.9)) == work_out(records.entries(), {}, settled(0.9), 1)


def test_a_calendar_of_a_transaction_that_failed_is_forgotten(
    engine: Engine, noted: Noted, now: datetime
) -> None:
    crew = _crew(engine, now)
    with suppress(_UndoneError), writing(engine) as session:
        records = CrewRecords(session, crew)
        records.append([noted("4a", EntryKind.CELL_PLACED)])
        assert _calendar(records).units
        raise _UndoneError
    with reading(engine) as session:
        assert not _calendar(CrewRecords(session, crew)).units
