"""Every example of the keeper's document is understood as the parser stands."""

import re
from datetime import date

import pytest

from bot.reading.reader import read
from bot.reading.situation import Situation, YardUnits
from scheduling.check_kinds import CheckKind
from scheduling.places import Place, UnitName
from tests.docs.test_readme import README, ROOT

KEEPERS = (ROOT / "bot" / "README.md").read_text(encoding="utf-8")

_DIVIDED = [UnitName(box, letter) for box in (1, 2, 3, 4, 5, 6) for letter in "abc"]
SITUATION = Situation(
    date(2027, 5, 12),
    (
        YardUnits("River", (*_DIVIDED, UnitName(7), UnitName(12, "b"))),
        YardUnits("Ridge", (UnitName(9),)),
    ),
    current_yard="River",
    # "out" answers what was due: here the cells of box 4 are waited for.
    open_checks=lambda: {
        Place("River", unit): (CheckKind.EMERGENCE,) for unit in _DIVIDED if unit.box == 4
    },
)


def examples() -> list[str]:
    """Give what stands in the code blocks, several on a line where wide gaps part them."""
    blocks = re.findall(r"```\n(.*?)```", KEEPERS, re.DOTALL)
    lines = [line.split("  #")[0] for block in blocks for line in block.splitlines()]
    return [said for line in lines for said in re.split(r" {3,}", line.strip())]


@pytest.mark.parametrize("said", examples())
def test_an_example_is_understood_without_a_question(said: str) -> None:
    reading = read(said, SITUATION)

    assert reading.questions == ()
    assert reading.findings or reading.command or reading.yard


def test_what_the_readme_shows_is_understood() -> None:
    block = README.split("## What to type")[1].split("```")[1]
    shown = [said for line in block.strip().splitlines() for said in re.split(r" {3,}", line)]

    assert len(shown) > 12
    assert [said for said in shown if read(said, SITUATION).questions] == []
