"""An entry that no yard can have is refused where it comes in; whatever happens there is not."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.entry_limits import faults_of_entry
from scheduling.places import Place, UnitName
from scheduling.values import CellAge, PutOff, TrapCount, VirginAge

NOW = datetime(2027, 5, 12, 10, tzinfo=UTC)
EGGS = Entry("e", Place("River", UnitName(1, "a")), EntryKind.EGGS, None, NOW.date(), NOW, "Ada")


@pytest.mark.parametrize(
    "on", [date(2000, 1, 1), date(2026, 12, 31), date(2027, 5, 12), date(2029, 5, 11)]
)
def test_days_of_a_keeper_s_life_are_taken(on: date) -> None:
    assert list(faults_of_entry(replace(EGGS, on=on), NOW)) == []


@pytest.mark.parametrize(
    "on", [date.min, date(1999, 12, 31), date(2029, 5, 12), date(2207, 5, 12), date.max]
)
def test_other_days_are_named_with_what_would_do(on: date) -> None:
    assert list(faults_of_entry(replace(EGGS, on=on), NOW)) == [
        f"on must be from 2000-01-01 to 2029-05-11, not {on}"
    ]


def test_an_instant_of_recording_is_held_to_the_same_days() -> None:
    for at in (datetime.min.replace(tzinfo=UTC), NOW + timedelta(days=3000)):
        (fault,) = faults_of_entry(replace(EGGS, recorded_at=at), NOW)
        assert fault.startswith("recorded_at must be from 2000-01-01")


def test_a_check_is_put_off_to_a_day_that_may_come() -> None:
    kept = replace(EGGS, kind=EntryKind.PUT_OFF, value=PutOff(date(2027, 5, 20)))
    never = replace(kept, value=PutOff(date.max))

    assert list(faults_of_entry(kept, NOW)) == []
    assert list(faults_of_entry(never, NOW)) == [
        "until must be from 2000-01-01 to 2029-05-11, not 9999-12-31"
    ]


@pytest.mark.parametrize(
    ("kind", "value", "fault"),
    [
        (EntryKind.CELL_PLACED, CellAge(10), None),
        (EntryKind.CELL_PLACED, CellAge(99_999_999_999), "days_since_graft must be at most 365"),
        (EntryKind.VIRGIN_PLACED, VirginAge(9_999_999), "days must be at most 365"),
        (EntryKind.TRAP_SERVICED, TrapCount(2_000), None),
        (EntryKind.TRAP_SERVICED, TrapCount(10**400), "beetles must be at most 1e+06"),
    ],
)
def test_numbers_that_cannot_be_counted_are_named(
    kind: EntryKind, value: CellAge | VirginAge | TrapCount, fault: str | None
) -> None:
    found = list(faults_of_entry(replace(EGGS, kind=kind, value=value), NOW))

    assert [each.partition(", not")[0] for each in found] == ([] if fault is None else [fault])
