"""The solver on a hard problem of known answer: points that meet every line.

In the affine space of order 3 a set of points without a whole line has at most 4, 9 points in
dimensions 2, 3 (cap sets, sequence A090245 of the encyclopedia of integer sequences; from
memory), so the points that meet every line are at least the others: 9 - 4 and 27 - 9.
"""

from collections.abc import Sequence
from itertools import product

import pytest

from scheduling.visit_plan.solver import Row, minimise_in_turn


def lines(dimension: int) -> list[list[int]]:
    """Every three points that add up to nothing, by their numbers."""
    points = list(product(range(3), repeat=dimension))
    number = {point: n for n, point in enumerate(points)}
    found = set()
    for one, other in product(points, repeat=2):
        if one != other:
            third = tuple((-a - b) % 3 for a, b in zip(one, other, strict=True))
            found.add(frozenset((number[one], number[other], number[third])))
    return sorted(sorted(line) for line in found)


def meeting(every: Sequence[Sequence[int]]) -> list[Row]:
    return [Row(1, len(line), dict.fromkeys(line, 1)) for line in every]


@pytest.mark.parametrize(("dimension", "fewest"), [(2, 5), (3, 18)])
def test_the_fewest_points_that_meet_every_line(dimension: int, fewest: int) -> None:
    points = range(3**dimension)
    every = lines(dimension)
    solved = minimise_in_turn([True] * len(points), meeting(every), [[dict.fromkeys(points, 1)]])
    assert solved is not None
    assert solved.sums == (fewest,)
    assert solved.exact
    assert all(any(round(solved.values[point]) for point in line) for line in every)


def test_what_was_not_proven_within_the_bound_is_not_called_exact() -> None:
    aim = dict.fromkeys(range(27), 1)
    solved = minimise_in_turn(
        [True] * 27, meeting(lines(3)), [[aim]], known=frozenset(range(27)), most_nodes=1
    )
    assert solved is not None
    assert solved.sums[0] >= 18
    assert all(any(round(solved.values[point]) for point in line) for line in lines(3))
    assert not solved.exact


@pytest.mark.parametrize("grouped", [True, False])
def test_a_later_aim_gives_nothing_of_an_earlier_one_away(grouped: bool) -> None:
    """One of three is enough; the cheapest of them by the second aim is taken, and only one."""
    rows = [Row(1, 3, {0: 1, 1: 1, 2: 1})]
    count, cheap = {0: 1, 1: 1, 2: 1}, {0: -5, 1: -9, 2: -7}
    aims = [[count, cheap]] if grouped else [[count], [cheap]]
    solved = minimise_in_turn([True] * 3, rows, aims)
    assert solved is not None
    assert solved.values == pytest.approx((0, 1, 0))
    assert solved.sums == (1, -9)


def test_rows_that_cannot_all_be_kept_have_no_answer() -> None:
    both = [Row(2, 2, {0: 1, 1: 1}), Row(0, 1, {0: 1, 1: 1})]
    assert minimise_in_turn([True, True], both, [[{0: 1}]]) is None


def test_after_the_bound_a_later_aim_keeps_at_least_what_was_found() -> None:
    """27 points, every one of them known to do; what the first run came to is never lost."""
    aims = [[dict.fromkeys(range(27), 1)], [{point: -point for point in range(27)}]]
    known = frozenset(range(27))
    solved = minimise_in_turn([True] * 27, meeting(lines(3)), aims, known, most_nodes=1)
    assert solved is not None
    assert sum(map(round, solved.values)) <= solved.sums[0]
    assert all(any(round(solved.values[point]) for point in line) for line in lines(3))
