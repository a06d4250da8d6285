"""Elements become clauses: units and what is said of them, whatever stands between."""

import pytest

from bot.reading.clauses.chunks import clause_parts
from bot.reading.clauses.clause import Clause, with_days, with_yards
from bot.reading.clauses.joined_clauses import joined_clauses
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import Cursor, NamedUnits, UnclearPart
from bot.reading.scan.scanner import scan, with_boxes
from bot.reading.tokens.token import tokenise


def parts(text: str) -> list[Clause]:
    return clause_parts(with_boxes(scan(Cursor(text, tokenise(text), ["Home", "River"]))))


def clauses(text: str) -> list[Clause]:
    return joined_clauses(parts(text))


def units(clause: Clause) -> str:
    named = [unit for unit in clause.units if isinstance(unit, NamedUnits)]
    return " ".join(f"{u.box}{u.letter}" for element in named for u in element.references)


def asked(clause: Clause) -> list[QuestionKind]:
    return [element.kind for element in clause.said if isinstance(element, UnclearPart)]


@pytest.mark.parametrize(
    ("text", "told_of"),
    [
        ("4a eggs, 4b none", ["4a", "4b"]),
        ("4a, 4b and 4c eggs", ["4a 4b 4c"]),
        ("fed 4a, 4b", ["4a 4b"]),
        ("4a eggs 4b none", ["4a", "4b"]),
        ("4a eggs, b none", ["4a", "4b"]),
        ("eggs in 4a. 4b none", ["4a", "4b"]),
    ],
)
def test_each_unit_is_told_of_by_its_own_clause(text: str, told_of: list[str]) -> None:
    assert [units(clause) for clause in clauses(text)] == told_of


def test_words_after_a_comma_go_on_about_the_same_unit() -> None:
    (clause,) = clauses("4b eggs, fed 1 quart")
    assert units(clause) == "4b"
    assert asked(clause) == []


def test_units_between_two_findings_may_belong_to_either_and_are_asked_about() -> None:
    (clause,) = clauses("eggs 4a dud 4b fed")
    assert asked(clause) == [QuestionKind.WHICH_MEANING]


def test_a_unit_left_out_is_named_beside_those_it_is_taken_from() -> None:
    (clause,) = clauses("4a-c eggs except 4b")
    assert [u.letter for element in clause.excluded for u in element.references] == ["b"]


def test_a_yard_that_leads_a_later_clause_is_the_yard_from_there_on() -> None:
    found = parts("4b eggs, river 20a none")
    assert [c.yard for c in with_yards(joined_clauses(found), found)] == [None, "River"]


def test_a_day_said_last_is_the_day_of_the_whole_text() -> None:
    found = parts("4a eggs, 4b none yesterday")
    days = [
        clause.when.spoken.ago for clause in with_days(joined_clauses(found), found) if clause.when
    ]
    assert days == [1, 1]


def test_two_days_in_one_clause_are_asked_about() -> None:
    (clause,) = clauses("4a eggs monday yesterday")
    assert asked(clause) == [QuestionKind.WHICH_DATE]
