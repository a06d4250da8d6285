"""Linear programs in whole numbers with several aims, one after the other, by HiGHS."""

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass

MOST_NODES = 2000
"""Search nodes per aim at most, so that an answer comes in bounded time, the same every time."""


@dataclass(frozen=True)
class Row:
    """A sum of columns, each times its number, that lies within bounds (both included)."""

    least: float
    most: float
    columns: Mapping[int, int]


@dataclass(frozen=True)
class Solved:
    """The values of the columns, and for each aim its sum and the least it is proven to be."""

    values: tuple[float, ...]
    sums: tuple[int, ...]
    bounds: tuple[int, ...]

    @property
    def exact(self) -> bool:
        """Whether every aim is proven to be as small as it can be."""
        return self.sums == self.bounds


def minimise_in_turn(
    whole: Sequence[bool],
    rows: Sequence[Row],
    aims: Sequence[Mapping[int, int]],
    known: Set[int] = frozenset(),
    most_nodes: int = MOST_NODES,
) -> Solved | None:
    """Make the first sum as small as can be, then, without losing that, the second, and so on.

    Columns are from 0 to 1; ``whole`` tells which of them must be 0 or 1. Where the rows are
    satisfied by the ``known`` columns at 1 and the others at 0, there is always an answer; else
    None if no values satisfy them, or none were found within the bound.
    """
    # Loaded here because it takes longer than all the rest of a start, and few crews need it.
    from scheduling.visit_plan.highs import Program

    program = Program(whole, most_nodes)
    for row in rows:
        program.add(row.least, row.most, row.columns)
    if known:
        program.begin_with([float(column in known) for column in range(len(whole))])
    sums, bounds = [], []
    for aim in aims:
        found = program.minimise(aim)
        if found is None:
            return None
        reached, bound = found
        program.add(float("-inf"), reached, aim)
        program.begin_with(program.values())
        sums.append(reached)
        bounds.append(bound)
    return Solved(program.values(), tuple(sums), tuple(bounds))
