"""What was worked out lately, given again for an equal thing."""

from collections.abc import Callable
from typing import Generic, TypeVar

Thing = TypeVar("Thing")
Made = TypeVar("Made")


class Lately(Generic[Thing, Made]):
    """Works something out of a thing, and gives it again while the thing is among the last few.

    Things are compared and not hashed. Long ones are of the same parts where little changed, and
    those are told apart from others at their first difference.

    Args:
        work_out: makes something of a thing that never changes, always the same.
        most: of how many things it is kept.

    """

    def __init__(self, work_out: Callable[[Thing], Made], most: int = 8) -> None:
        self._work_out = work_out
        self._most = most
        # Replaced as a whole, never changed: threads read it while another one writes.
        self._known: tuple[tuple[Thing, Made], ...] = ()

    def of(self, thing: Thing) -> Made:
        """Give what comes of a thing."""
        for known, made in self._known:
            if known == thing:
                return made
        made = self._work_out(thing)
        self._known = ((thing, made), *self._known[: self._most - 1])
        return made
