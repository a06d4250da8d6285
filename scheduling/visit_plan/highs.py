"""Our few calls of the HiGHS solver (general mixed-integer programs, exact within a bound)."""

from collections.abc import Mapping, Sequence

from highspy import HighsModelStatus, HighsVarType, kSolutionStatusFeasible
from highspy._core import _Highs


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
