"""What a text alone decides is read without the open checks, which may cost a whole calendar."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from bot.reading.reader import read
from bot.reading.situation import Situation
from scheduling.check_kinds import CheckKind
from scheduling.places import Place
from tests.bot.reading.yards_for_reading import at


def counting(looked: list[str]) -> Situation:
    def open_checks() -> Mapping[Place, tuple[CheckKind, ...]]:
        looked.append("looked")
        return {}

    return replace(at(), open_checks=open_checks)


@pytest.mark.parametrize(
    "text", ["due", "undo", "4b?", "thanks!", "rained at river", "grafted 40", "xyzzy", "99z eggs"]
)
def test_a_command_small_talk_and_what_is_told_of_a_yard_look_up_no_check(text: str) -> None:
    looked: list[str] = []
    read(text, counting(looked))
    assert looked == []


def test_a_report_of_many_units_looks_them_up_once() -> None:
    looked: list[str] = []
    read("4a eggs, 4b out, 4c dead, 1a none", counting(looked))
    assert looked == ["looked"]
