"""A rule that fails for one unit or batch leaves out that one, and no other of the crew."""

from datetime import date

import pytest

from scheduling.checks import calendar as module
from scheduling.checks.calendar import work_out
from scheduling.checks.queen_dates import QueenDates
from scheduling.checks.work_out_again import work_out_again
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.values import CellAge, Graft, Struck, Value, VirginAge
from scheduling.visits import due_on
from tests.scheduling.checks.test_calendar_laws import written
from tests.scheduling.story import YARD, may, unit

GOOD = unit("4b")
BAD = unit("4a")


def at(entry: Entry, on: date) -> Entry:
    return Entry(entry.uid, entry.place, entry.kind, entry.value, on, entry.recorded_at, "ida")


def season() -> list[Entry]:
    """Cells placed in two units, and a batch."""
    return [
        written("good", GOOD, EntryKind.CELL_PLACED, CellAge(10), 3, 0),
        written("other", BAD, EntryKind.CELL_PLACED, CellAge(10), 3, 1),
        written("batch", Place(YARD, batch="2027-05-03"), EntryKind.GRAFTED, Graft(20), 3, 2),
    ]


ENDS_OF_TIME: list[tuple[EntryKind, Value | None, date]] = [
    (EntryKind.EGGS, None, date.max),
    (EntryKind.CELL_PLACED, CellAge(10), date.min),
    (EntryKind.CELL_PLACED, CellAge(10), date(9999, 12, 25)),
    (EntryKind.CELL_PLACED, CellAge(99_999_999_999), may(3)),
    (EntryKind.VIRGIN_PLACED, VirginAge(9_999_999), may(3)),
]


@pytest.mark.parametrize(("kind", "value", "on"), ENDS_OF_TIME)
def test_the_other_units_and_batches_are_as_without_it(
    kind: EntryKind, value: Value | None, on: date
) -> None:
    without = work_out(season())
    broken = work_out([*season(), at(written("bad", BAD, kind, value, 4, 9), on)])

    assert list(broken.left_out) == [BAD]
    assert BAD not in broken.units
    assert broken.checks == {p: c for p, c in without.checks.items() if p != BAD}
    assert due_on(broken, may(16)).yards == (YARD,)
    assert broken.queen(BAD) == QueenDates(broken.queen(BAD).state, None)


def test_a_batch_at_the_end_of_time_is_left_out_alone() -> None:
    bad = Place(YARD, batch="9999-12-31")
    log = [*season(), at(written("bad", bad, EntryKind.GRAFTED, Graft(40), 4, 9), date.max)]
    broken = work_out(log)

    assert list(broken.left_out) == [bad]
    assert broken.checks == work_out(season()).checks


def test_a_fault_of_our_own_in_one_unit_is_no_fault_of_the_others(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    whole = module.checks_of_unit

    def faulty(queen: QueenDates, *rest: object) -> object:
        if queen.state.place == BAD:
            raise ZeroDivisionError
        return whole(queen, *rest)  # type: ignore[arg-type]

    monkeypatch.setattr(module, "checks_of_unit", faulty)

    assert work_out(season()).left_out == {BAD: "ZeroDivisionError"}
    assert GOOD in work_out(season()).units


@pytest.mark.parametrize(("kind", "value", "on"), ENDS_OF_TIME)
def test_worked_out_after_another_it_is_left_out_and_comes_back_when_it_is_struck(
    kind: EntryKind, value: Value | None, on: date
) -> None:
    log = season()
    known = work_out_again(None, log)
    for entry in (
        at(written("bad", BAD, kind, value, 4, 9), on),
        written("more", GOOD, EntryKind.EMERGED, None, 6, 10),
        written("still", BAD, EntryKind.EMERGED, None, 6, 11),
        written("strike", BAD, EntryKind.STRIKE, Struck("bad"), 7, 12),
    ):
        log = [*log, entry]
        known = work_out_again(known, log)
        assert known.calendar == work_out(log)

    assert not known.calendar.left_out
    assert BAD in known.calendar.units
