"""The record of each kind of check holds together."""

from scheduling.check_kinds import (
    ABOUT_THE_QUEEN,
    CHECK_FACTS,
    UPKEEP,
    CheckKind,
    Work,
    check_kinds,
)


def test_every_kind_has_its_record() -> None:
    assert set(CHECK_FACTS) == set(CheckKind)


def test_a_rest_is_told_after_all_work_on_queens_and_before_upkeep() -> None:
    told = list(CHECK_FACTS)
    rest = told.index(CheckKind.REST)
    assert set(told[:rest]) == ABOUT_THE_QUEEN
    assert set(told[rest + 1 :]) == UPKEEP == {CheckKind.FEED, CheckKind.TRAP}


def test_only_a_rest_is_no_work() -> None:
    assert check_kinds(lambda facts: facts.work is Work.REST) == {CheckKind.REST}


def test_what_is_told_first_is_a_queen_given_up() -> None:
    assert next(iter(CHECK_FACTS)) is CheckKind.GIVE_UP


def test_repairs_are_no_looks_for_food() -> None:
    assert check_kinds(lambda facts: facts.repair) == {
        CheckKind.GIVE_UP,
        CheckKind.RECELL,
        CheckKind.BOOST,
    }
