"""Asking the same of the same unit more than once without working it out again."""

from collections.abc import Callable
from functools import wraps
from typing import TypeVar

from scheduling.units.state import UnitState

Answer = TypeVar("Answer")


def remembered(rule: Callable[[UnitState], Answer]) -> Callable[[UnitState], Answer]:
    """Keep the last answer of a rule, for as long as it is asked of the very same unit.

    Several checks of one unit rest on its next look for eggs; a unit never changes, so what was
    answered of it stays true.
    """
    last: tuple[UnitState, Answer] | None = None

    @wraps(rule)
    def asked(state: UnitState) -> Answer:
        nonlocal last
        known = last
        if known is not None and known[0] is state:
            return known[1]
        answer = rule(state)
        last = (state, answer)
        return answer

    return asked
