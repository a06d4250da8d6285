"""Stores of many units at once: the reckoning of ``larder``, with a row of arrays to a day."""

from collections import defaultdict
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
    """Give what is eaten on each day."""
    bees, brood = _mouths(pantries, courses, walks)
    gone = eaten(bees, brood)
    kept_in = _marked([pantry.kept_in for pantry in pantries])
    gone[kept_in] = eaten(bees[kept_in], brood[kept_in], kept_in=True)
    gone[_marked([pantry.in_flow for pantry in pantries])] = 0.0
    return gone


def _mouths(
    pantries: Sequence[Pantry], courses: Courses, walks: Sequence[int | None]
) -> tuple[Amounts, Amounts]:
    """Give bees and brood on each day; a usual unit's where its own are not known."""
    bees = np.full((DAYS + 1, len(pantries)), USUAL_BEES)
    brood = np.full_like(bees, USUAL_BROOD)
    all_brood = courses.open_cells + courses.sealed_cells
    for begun, (numbers, of_walks) in _by_day_begun(pantries, walks).items():
        first = max(0, -begun)
        end = max(first, min(DAYS + 1, len(courses.bees) - begun))
        bees[first:end, numbers] = courses.bees[begun + first : begun + end, of_walks]
        brood[first:end, numbers] = all_brood[begun + first : begun + end, of_walks]
    return bees, brood


def _by_day_begun(
    pantries: Sequence[Pantry], walks: Sequence[int | None]
) -> dict[int, tuple[list[int], list[int]]]:
    """Sort the pantries whose bees are known by the day of the bees' account they begin on."""
    sorted_out: dict[int, tuple[list[int], list[int]]] = defaultdict(lambda: ([], []))
    for number, (pantry, walk) in enumerate(zip(pantries, walks, strict=True)):
        if walk is not None:
            numbers, of_walks = sorted_out[pantry.begun]
            numbers.append(number)
            of_walks.append(walk)
    return sorted_out


def _marked(days: Sequence[frozenset[int]]) -> NDArray[np.bool_]:
    marked = np.zeros((DAYS + 1, len(days)), dtype=np.bool_)
    for number, each in enumerate(days):
        for day in each:
            if 0 <= day <= DAYS:
                marked[day, number] = True
    return marked
