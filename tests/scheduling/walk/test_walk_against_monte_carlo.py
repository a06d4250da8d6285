"""The walk against a hundred thousand queens, each played out on her own.

Written without the walk's code: only the figures of the stages are shared.
"""

from dataclasses import dataclass

import numpy as np
import pytest
from numpy.typing import NDArray

from scheduling.walk.case import DAYS, Case, Sight
from scheduling.walk.model import walk
from scheduling.walk.stages import PUBLISHED, Spread
from tests.scheduling.walk.queens import CELL, OUT, raining, seen

QUEENS = 100_000
NEVER = 10_000
Days = NDArray[np.int64]


@dataclass
class Lives:
    """The day on which each queen emerges, mates, lays first, or fails; NEVER if she does not."""

    emerged: Days
    mated: Days
    laid: Days
    failed: Days

    def share(self, happened: NDArray[np.bool_], among: NDArray[np.bool_]) -> float:
        return float(happened[among].mean())


def draw(spread: Spread, chance: np.random.Generator) -> Days:
    days = np.arange(spread.first, spread.last + 1)
    return chance.choice(days, size=QUEENS, p=spread.chances)


def live(case: Case) -> Lives:
    chance = np.random.default_rng(20270501)
    emerged = draw(case.emergence, chance)
    mature = emerged + draw(PUBLISHED.maturing, chance)
    to_egg = draw(PUBLISHED.to_first_egg, chance)
    dud = case.from_cell & (chance.random(QUEENS) >= PUBLISHED.emerge)
    dies = emerged + chance.geometric(PUBLISHED.lost_a_day, QUEENS)
    mated = first_flight(case, emerged, mature, chance)
    home = chance.random(QUEENS) < PUBLISHED.back
    age = mated - emerged
    well = chance.random(QUEENS) < np.clip((28 - age) / 7, 0, 1)
    lays = ~dud & home & well & (mated < NEVER) & (dies > mated + to_egg - 1)
    lays &= dies >= mated + to_egg
    laid = np.where(lays, mated + to_egg, NEVER)
    lost = np.where(home & well, NEVER, mated)
    failed = np.minimum(np.minimum(np.where(laid == NEVER, dies, NEVER), lost), emerged + 28)
    failed = np.where(lays, NEVER, np.where(dud, -1, failed))
    return Lives(np.where(dud, NEVER, emerged), mated, laid, failed)


def first_flight(case: Case, emerged: Days, mature: Days, chance: np.random.Generator) -> Days:
    """Let each queen try on each day; a day that is half fit counts half in the exponent."""
    mated = np.full(QUEENS, NEVER)
    for day in range(DAYS):
        flies = 1 - (1 - PUBLISHED.flight_chance) ** case.flying[day]
        waits = (mated == NEVER) & (mature <= day) & (day - emerged < 28)
        mated[waits & (chance.random(QUEENS) < flies)] = day
    return mated


WEATHERS = {
    "fair": CELL,
    "five days of rain": raining(CELL, 8, 9, 10, 11, 12),
    "three weeks of rain": raining(CELL, *range(25)),
    "half days": Case(CELL.emergence, flying=(0.4,) * DAYS),
    "known to be out": OUT,
}


@pytest.mark.parametrize("case", WEATHERS.values(), ids=WEATHERS)
def test_shares_of_queens_are_the_chances_of_the_walk(case: Case) -> None:
    lives, walked = live(case), walk(case)
    everyone = np.ones(QUEENS, dtype=np.bool_)
    for day in range(DAYS):
        agree(walked.eggs[day], lives.laid <= day, everyone)
        agree(walked.emerged[day], lives.emerged <= day, everyone)
        agree(walked.failed[day], lives.failed <= day, everyone)


def test_after_a_look_without_eggs_the_shares_among_those_that_fit_are_the_chances() -> None:
    """Queens that lay by the look are kept only where the look misses their eggs."""
    look = 14
    walked = walk(seen(raining(CELL, 9, 10, 11), (4, Sight.OUT), (look, Sight.NO_EGGS)))
    lives = live(raining(CELL, 9, 10, 11))
    missed = np.random.default_rng(7).random(QUEENS) < PUBLISHED.eggs_missed
    fits = (lives.emerged <= 4) & ((lives.laid > look) | missed)
    for day in range(look, DAYS):
        agree(walked.eggs[day], lives.laid <= day, fits)
        agree(walked.failed[day], lives.failed <= day, fits)


def agree(chance: float, happened: NDArray[np.bool_], among: NDArray[np.bool_]) -> None:
    """Within four and a half standard errors, for some 600 such comparisons."""
    error = np.sqrt(max(chance * (1 - chance), 1e-9) / among.sum())
    assert happened[among].mean() == pytest.approx(chance, abs=4.5 * error)
