"""Linear programs in whole numbers with several aims, one after the other, by the HiGHS solver."""

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass

from highspy import HighsModelStatus, HighsVarType, kSolutionStatusFeasible
from highspy._core import _Highs

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


class Program:
    """A growing set of rows over columns from 0 to 1, and aims minimised over them."""

    def __init__(self, whole: Sequence[bool], most_nodes: int) -> None:
        # Not its child Highs, which prints a line before it can be told to be quiet.
        self._solver = _Highs()
        for option, value in _options(most_nodes).items():
            self._solver.setOptionValue(option, value)
        count = len(whole)
        self._solver.addVars(count, [0.0] * count, [1.0] * count)
        for column, is_whole in enumerate(whole):
            if is_whole:
                self._solver.changeColIntegrality(column, HighsVarType.kInteger)
        self._count = count

    def add(self, least: float, most: float, columns: Mapping[int, int]) -> None:
        """Hold a sum of columns within bounds."""
        self._solver.addRow(least, most, len(columns), list(columns), list(columns.values()))

    def begin_with(self, values: Sequence[float]) -> None:
        """Tell of values that satisfy the rows, if there are any, to have an answer at once."""
        if values:
            self._solver.setSolution(self._count, list(range(self._count)), list(values))

    def minimise(self, aim: Mapping[int, int]) -> bool | None:
        """Find values with the smallest sum; tell whether it is proven that none is smaller.

        None if no values satisfy the rows, or none were found within the bound.
        """
        costs = [float(aim.get(column, 0)) for column in range(self._count)]
        self._solver.changeColsCost(self._count, list(range(self._count)), costs)
        self._solver.run()
        if self._solver.getInfo().primal_solution_status != int(kSolutionStatusFeasible):
            return None
        return bool(self._solver.getModelStatus() == HighsModelStatus.kOptimal)

    def values(self) -> tuple[float, ...]:
        """Give the columns of the last solution."""
        return tuple(self._solver.getSolution().col_value)


def _options(most_nodes: int) -> dict[str, bool | int | float | str]:
    return {
        "output_flag": False,
        "parallel": "off",
        "mip_rel_gap": 0.0,
        "mip_abs_gap": 0.9,
        "mip_max_nodes": most_nodes,
    }
