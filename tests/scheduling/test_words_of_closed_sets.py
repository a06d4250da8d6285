"""A word of a closed set is found under its own text, in code as in a file or a database."""

import pickle
from enum import StrEnum

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause
from scheduling.entry_kinds import EntryKind
from scheduling.units.state import Stage
from scheduling.values import Flying, Forage, Pattern
from scheduling.walk.case import Sight

CLOSED_SETS: list[type[StrEnum]] = [
    Cause,
    CheckKind,
    EntryKind,
    Flying,
    Forage,
    Pattern,
    Sight,
    Stage,
]


@pytest.mark.parametrize("closed_set", CLOSED_SETS)
def test_each_word_is_found_under_its_text(closed_set: type[StrEnum]) -> None:
    numbers = {word: number for number, word in enumerate(closed_set)}
    assert [numbers[word] for word in closed_set] == list(range(len(closed_set)))
    assert {str(word): numbers[word] for word in closed_set} == numbers
    assert all(word in {str(word)} for word in closed_set)


@pytest.mark.parametrize("closed_set", CLOSED_SETS)
def test_a_word_stays_itself_from_one_process_to_the_next(closed_set: type[StrEnum]) -> None:
    for word in closed_set:
        assert pickle.loads(pickle.dumps(word)) is word  # noqa: S301 - our own bytes
        assert closed_set(str(word)) is word
