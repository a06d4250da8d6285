"""Linear programs in whole numbers with several aims, one after the other, by HiGHS."""

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass

MOST_NODES = 2000
"""Search nodes per run at most, so that an answer comes in bounded time, the same every time."""

Sum = Mapping[int, int]
"""Columns by their number, each with what it is multiplied by."""


@dataclass(frozen=True)
class Row:
    """A sum of columns, each times its number, that lies within bounds (both included)."""

    least: float
    most: float
    columns: Sum


@dataclass(frozen=True)
class Solved:
    """The values of the columns, each aim's sum, and whether none can be smaller, by proof."""

    values: tuple[float, ...]
    sums: tuple[int, ...]
    exact: bool


def minimise_in_turn(
    whole: Sequence[bool],
    rows: Sequence[Row],
    aims: Sequence[Sequence[Sum]],
    known: Set[int] = frozenset(),
    most_nodes: int = MOST_NODES,
) -> Solved | None:
    """Make the first sum as small as can be, then, without losing that, the second, and so on.

    The sums of one group are minimised in one run, which is quicker while their numbers are
    small. Columns are from 0 to 1; ``whole`` tells which of them must be 0 or 1. Where the rows
    are satisfied by the ``known`` columns at 1 and the others at 0, there is always an answer;
    else None if no values satisfy them, or none were found within the bound.
    """
    # Loaded here because it takes longer than all the rest of a start, and few crews need it.
    from scheduling.visit_plan.highs import Program

    program = Program(whole, most_nodes)
    for row in rows:
        program.add(row.least, row.most, row.columns)
    values = [float(column in known) for column in range(len(whole))] if known else []
    sums, exact = list[int](), True
    for group in aims:
        program.begin_with(values)
        proven = program.minimise(weighed(group))
        if proven is None:
            return None
        values, exact = list(program.values()), exact and proven
        reached = [_sum(aim, values) for aim in group]
        for aim, most in zip(group, reached, strict=True):
            program.add(float("-inf"), most, aim)
        sums += reached
    return Solved(tuple(values), tuple(sums), exact)


def weighed(group: Sequence[Sum]) -> Sum:
    """Add sums up so that one less of an earlier one outweighs all that later ones can be."""
    total: dict[int, int] = {}
    weight = 1
    for aim in reversed(group):
        for column, number in aim.items():
            total[column] = total.get(column, 0) + weight * number
        weight += weight * sum(map(abs, aim.values()))
    return total


def _sum(aim: Sum, values: Sequence[float]) -> int:
    return round(sum(number * values[column] for column, number in aim.items()))
