"""The whole way from one start event, with what is only foreseen."""

from datetime import date

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import START_EVENTS, timetable
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.values import CellAge, VirginAge
from tests.scheduling.story import in_may, may


def way(kind: EntryKind, age: CellAge | VirginAge | None = None) -> list[tuple[str, int]]:
    checks = timetable(kind, may(1), age)
    return [(str(check.kind), in_may(check.best or check.not_before)) for check in checks]


def test_a_ripe_cell() -> None:
    assert way(EntryKind.CELL_PLACED, CellAge(days_since_graft=10)) == [
        ("rest", 2),
        ("emergence", 4),
        ("feed", 4),
        ("rest", 6),
        ("laying", 15),
        ("sealed_brood", 24),
        ("give_up", 24),
        ("take", 29),
    ]


def test_a_virgin() -> None:
    assert way(EntryKind.VIRGIN_PLACED, VirginAge(0)) == [
        ("rest", 2),
        ("laying", 13),
        ("feed", 13),
        ("sealed_brood", 22),
        ("give_up", 22),
        ("take", 27),
    ]


def test_a_caged_mated_queen() -> None:
    assert way(EntryKind.CAGED_QUEEN_PLACED) == [
        ("rest", 2),
        ("release", 4),
        ("rest", 7),
        ("feed", 8),
        ("laying", 11),
        ("sealed_brood", 20),
        ("take", 25),
    ]


def test_a_unit_left_to_raise_its_own() -> None:
    assert way(EntryKind.RAISING_OWN) == [
        ("feed", 8),
        ("rest", 11),
        ("laying", 25),
        ("sealed_brood", 34),
        ("give_up", 34),
        ("take", 39),
    ]


def test_a_unit_just_stocked() -> None:
    assert way(EntryKind.MADE_UP) == [("trap", 1), ("recell", 2), ("feed", 8)]


def test_a_batch() -> None:
    assert way(EntryKind.GRAFTED) == [("rest", 7), ("cells_ripe", 11)]


def test_what_depends_on_an_answer_names_it() -> None:
    checks = timetable(EntryKind.CELL_PLACED, may(1))
    follows = {check.kind: check.follows for check in checks if check.follows is not None}
    assert follows == {
        CheckKind.SEALED_BROOD: CheckKind.LAYING,
        CheckKind.GIVE_UP: CheckKind.LAYING,
        CheckKind.TAKE: CheckKind.SEALED_BROOD,
    }


@pytest.mark.parametrize("kind", sorted(set(EntryKind) - START_EVENTS))
def test_what_starts_nothing_is_refused(kind: EntryKind) -> None:
    with pytest.raises(ValueError, match="starts nothing"):
        timetable(kind, may(1))


@pytest.mark.parametrize(
    ("kind", "age"),
    [
        (EntryKind.CELL_PLACED, VirginAge(1)),
        (EntryKind.VIRGIN_PLACED, CellAge(days_since_graft=10)),
        (EntryKind.CAGED_QUEEN_PLACED, VirginAge(1)),
    ],
)
def test_an_age_of_something_else_is_refused(kind: EntryKind, age: CellAge | VirginAge) -> None:
    with pytest.raises(ValueError, match="cannot carry"):
        timetable(kind, may(1), age)


def test_the_place_of_a_timetable_is_a_stand_in() -> None:
    (rest, *_) = timetable(EntryKind.CELL_PLACED, date(2027, 5, 1))
    assert rest.place == Place("yard", unit=UnitName(1))
