"""Numbers with their measures become litres, kilograms, deep frames and days.

Litres and kilograms: 1 US gallon = 231 cubic inches, 1 inch = 25.4 mm, 1 pound = 0.45359237 kg
(NIST Handbook 44, Appendix C, General Tables of Units of Measurement; from memory).
"""

import pytest

from bot.reading.reader import read
from bot.reading.result import QuestionKind
from scheduling.values import CellAge, Feed, Graft, MakeUp, Stores, TrapCount, Value, VirginAge
from tests.bot.reading.yards_for_reading import TODAY, at

GALLON = 231 * 2.54**3 / 1000
"""Litres."""
POUND = 0.45359237
"""Kilograms."""


def value(text: str) -> Value | None:
    (finding,) = read(text, at()).findings
    return finding.value


@pytest.mark.parametrize(
    ("said", "gallons"),
    [("1 gallon", 1), ("half a gallon", 1 / 2), ("1 quart", 1 / 4), ("2 quarts", 1 / 2),
     ("1 pint", 1 / 8), ("1 cup", 1 / 16), ("1 1/2 quarts", 3 / 8), ("a quart", 1 / 4)],
)  # fmt: skip
def test_us_measures_of_syrup_in_litres(said: str, gallons: float) -> None:
    fed = value(f"fed 4b {said}")
    assert isinstance(fed, Feed)
    assert fed.syrup_litres == pytest.approx(gallons * GALLON, abs=0.0006)


@pytest.mark.parametrize(("said", "pounds"), [("2 lb", 2), ("1 pound", 1), ("half a pound", 0.5)])
def test_pounds_of_fondant_in_kilograms(said: str, pounds: float) -> None:
    fed = value(f"4b {said} fondant")
    assert isinstance(fed, Feed)
    assert fed.fondant_kg == pytest.approx(pounds * POUND, abs=0.0006)


@pytest.mark.parametrize(
    ("said", "frames"),
    [("half a frame of food", 0.5), ("1/4 frame food", 0.25), ("three quarters of a frame of food",
     0.75), ("2 frames of stores", 2), ("food 1 1/2 frames", 1.5), ("no food", 0)],
)  # fmt: skip
def test_food_seen_in_deep_frames(said: str, frames: float) -> None:
    assert value(f"4b {said}") == Stores(frames)


def test_food_seen_and_syrup_given_in_one_message() -> None:
    values = [f.value for f in read("4b half frame food, fed 1 quart", at()).findings]
    assert set(values) == {Stores(0.5), Feed(syrup_litres=0.946)}


@pytest.mark.parametrize(
    ("said", "age"),
    [("10 day cell 4b", CellAge(10)), ("cell in 4b, grafted 2 may", CellAge(10)),
     ("14e cell 4b", CellAge(days_since_egg=14)), ("ten day old cell in 4b", CellAge(10))],
)  # fmt: skip
def test_a_cell_is_aged_from_the_graft_or_from_the_egg(said: str, age: CellAge) -> None:
    assert value(said) == age


def test_other_starts() -> None:
    assert value("virgin in 4b 3 days old") == VirginAge(3)
    assert value("made up 4b 1 frame brood 2 shakes") == MakeUp(brood_frames=1, nurse_shakes=2)
    assert value("4b trap 12 beetles") == TrapCount(12)


def test_a_batch_is_named_by_the_day_it_was_grafted() -> None:
    (finding,) = read("grafted 40 from 12b larvae 18 hours", at()).findings
    assert finding.place.batch == TODAY.isoformat()
    assert finding.value == Graft(40, "12b", 18)


@pytest.mark.parametrize(
    "said",
    ["fed 4b 200 quarts", "30 day cell 4b", "4b 99999 beetles", "4b 2.5 beetles", "fed 4b 0 quarts",
     "grafted 40 larvae 400 hours", "4b 10 day cell 12 days"],
)  # fmt: skip
def test_a_number_that_cannot_be_is_asked_about(said: str) -> None:
    reading = read(said, at())
    assert reading.findings == ()
    assert {question.kind for question in reading.questions} == {QuestionKind.BAD_NUMBER}


@pytest.mark.parametrize(
    ("said", "beetles"), [("twenty one", 21), ("twenty", 20), ("thirty two", 32), ("21", 21)]
)
def test_tens_and_ones_in_words_are_one_number(said: str, beetles: int) -> None:
    assert value(f"trap in 4b {said} beetles") == TrapCount(beetles)
