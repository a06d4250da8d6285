"""What the ages of a day make of one queen, by the day of her emergence."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from scheduling.quickly_made import quickly_made
from scheduling.walk.case import DAYS
from scheduling.walk.stages import Stages

Row = Sequence[float]
"""One number for each day of emergence."""


@quickly_made
@dataclass(frozen=True, slots=True)
class Ages:
    """What the ages of one day make of her, by the day of her emergence; empty if all are nought.

    Attributes:
        matures: the share that matures on it.
        immature: the share that is not mature after it.
        mates_well: the chance that a mating on it is a good one.

    """

    matures: Row
    immature: Row
    mates_well: Row


@lru_cache(maxsize=16)
def ages_of_days(stages: Stages, emergences: int) -> tuple[Ages, ...]:
    """Give what each day's ages make of queens, of so many days of emergence, the first first."""
    chances = dict(enumerate(stages.maturing.chances, stages.maturing.first))
    return tuple(
        Ages(
            _unless_nought(chances.get(age, 0.0) for age in ages),
            _unless_nought(sum(of for at, of in chances.items() if at > age) for age in ages),
            tuple(stages.mates_well(age) for age in ages),
        )
        for ages in (range(day, day - emergences, -1) for day in range(DAYS))
    )


def _unless_nought(row: Iterable[float]) -> Row:
    numbers = tuple(row)
    return numbers if any(numbers) else ()
