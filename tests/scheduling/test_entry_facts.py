"""The record of each kind of entry holds together."""

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.entry_facts import ENTRY_FACTS, entry_kinds
from scheduling.entry_kinds import EntryFacts, EntryKind, FoodNews, QueenNews, Scope

EACH = pytest.mark.parametrize(("kind", "facts"), ENTRY_FACTS.items())


def test_every_kind_has_its_record_in_the_order_of_kinds() -> None:
    assert list(ENTRY_FACTS) == list(EntryKind)


@EACH
def test_a_value_that_is_needed_has_a_type(kind: EntryKind, facts: EntryFacts) -> None:
    assert facts.value is not None or not facts.value_needed, kind


@EACH
def test_a_kind_and_its_denial_cannot_both_be(kind: EntryKind, facts: EntryFacts) -> None:
    if facts.opposite is not None:
        other = ENTRY_FACTS[facts.opposite].contradicts
        assert facts.opposite in facts.contradicts or kind in other


@EACH
def test_a_contradiction_is_written_once(kind: EntryKind, facts: EntryFacts) -> None:
    assert kind not in facts.contradicts
    assert not [other for other in facts.contradicts if kind in ENTRY_FACTS[other].contradicts]


@EACH
def test_what_a_keeper_looks_for_at_a_check_answers_it(kind: EntryKind, facts: EntryFacts) -> None:
    assert facts.looked_for_at <= facts.answers, kind


@EACH
def test_what_is_told_of_a_queen_is_told_of_a_unit(kind: EntryKind, facts: EntryFacts) -> None:
    if facts.queen is not None or facts.opened or facts.answers:
        assert facts.scope is Scope.UNIT, kind


@EACH
def test_what_holds_for_a_whole_yard_bears_on_its_units(kind: EntryKind, facts: EntryFacts) -> None:
    if facts.every_unit:
        assert facts.scope in (Scope.YARD, Scope.UNIT_OR_YARD), kind
        assert facts.bears_on_others, kind


def test_another_queen_answers_all_that_was_asked_of_the_last() -> None:
    queens = entry_kinds(lambda facts: facts.queen is QueenNews.ANOTHER)
    assert queens == {
        EntryKind.CELL_PLACED,
        EntryKind.VIRGIN_PLACED,
        EntryKind.CAGED_QUEEN_PLACED,
        EntryKind.RAISING_OWN,
    }
    for kind in queens:
        left = set(CheckKind) - ENTRY_FACTS[kind].answers
        assert left == {CheckKind.REST, CheckKind.FEED, CheckKind.TRAP}


def test_food_is_not_known_after_what_empties_a_unit() -> None:
    assert entry_kinds(lambda facts: facts.food is FoodNews.UNKNOWN) == {
        EntryKind.ROBBED,
        EntryKind.ABSCONDED,
        EntryKind.DEAD,
        EntryKind.EMPTIED,
    }


@EACH
def test_food_that_was_seen_or_given_can_be_told_in_numbers(
    kind: EntryKind, facts: EntryFacts
) -> None:
    if facts.food in (FoodNews.SEEN, FoodNews.GIVEN):
        assert facts.value is not None, kind
