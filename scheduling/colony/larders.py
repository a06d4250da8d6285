"""Stores of many units at once: the reckoning of ``larder``, with a row of arrays to a day."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from scheduling.alike import Alike
from scheduling.by_day import ByDay, by_day_of_each
from scheduling.colony.courses import Amounts, Courses
from scheduling.colony.larder import DAYS, USUAL_BEES, USUAL_BROOD, Pantry
from scheduling.colony.stores import eaten


def stored_many(
    pantries: Sequence[Pantry], courses: Courses, walks: Sequence[int | None]
) -> list[ByDay]:
    """Reckon the stores of each pantry as ``larder.stored`` does; those alike share one reckoning.

    ``walks`` tells which of the walks is that of its bees, None where they are not known.
    """
    alike = Alike(zip(pantries, walks, strict=True))
    left = _left(
        [pantry for pantry, _walk in alike.kinds], [walk for _pantry, walk in alike.kinds], courses
    )
    return [left[kind] for kind in alike.kind_of_each]


def _left(pantries: Sequence[Pantry], walks: Sequence[int | None], courses: Courses) -> list[ByDay]:
    given, gone = _fed(pantries), _eaten(pantries, courses, walks)
    left = np.empty((DAYS + 1, len(pantries)))
    left[0] = np.array([pantry.seen for pantry in pantries]) + given[0]
    for day in range(1, DAYS + 1):
        left[day] = np.maximum(0.0, left[day - 1] - gone[day]) + given[day]
    return by_day_of_each(left)


def _fed(pantries: Sequence[Pantry]) -> Amounts:
    given = np.zeros((DAYS + 1, len(pantries)))
    for number, pantry in enumerate(pantries):
        for day, amount in pantry.fed:
            given[day, number] += amount
    return given


def _eaten(pantries: Sequence[Pantry], courses: Courses, walks: Sequence[int | None]) -> Amounts:
    """Give what is eaten on each day, by a usual unit's mouths where its own are not known."""
    bees = np.full((DAYS + 1, len(pantries)), USUAL_BEES)
    brood = np.full_like(bees, USUAL_BROOD)
    known, of = _where_known(pantries, courses, walks)
    bees[known] = courses.bees[of]
    brood[known] = courses.open_cells[of] + courses.sealed_cells[of]
    kept_in = _marked([pantry.kept_in for pantry in pantries])
    gone = np.where(kept_in, eaten(bees, brood, kept_in=True), eaten(bees, brood))
    gone[_marked([pantry.in_flow for pantry in pantries])] = 0.0
    return gone


_Where = tuple[NDArray[np.intp], NDArray[np.intp]]
"""A day and a column for each cell of an array that is meant."""


def _where_known(
    pantries: Sequence[Pantry], courses: Courses, walks: Sequence[int | None]
) -> tuple[_Where, _Where]:
    """Tell for which day and pantry there is a day of a walk, and which."""
    begun = np.array([pantry.begun for pantry in pantries], dtype=np.intp)
    walk = np.array([-1 if each is None else each for each in walks], dtype=np.intp)
    day_of_course = np.arange(DAYS + 1)[:, None] + begun
    holds = (day_of_course >= 0) & (day_of_course < len(courses.bees)) & (walk >= 0)
    day, number = np.nonzero(holds)
    return (day, number), (day_of_course[day, number], walk[number])


def _marked(days: Sequence[frozenset[int]]) -> NDArray[np.bool_]:
    marked = np.zeros((DAYS + 1, len(days)), dtype=np.bool_)
    for number, each in enumerate(days):
        for day in each:
            if 0 <= day <= DAYS:
                marked[day, number] = True
    return marked
