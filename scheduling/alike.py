"""Sorting out what is alike, so that it is reckoned once."""

from collections.abc import Hashable, Iterable
from typing import Generic, TypeVar

Thing = TypeVar("Thing", bound=Hashable)


class Alike(Generic[Thing]):
    """Many things, and the few kinds of which they are.

    Attributes:
        kinds: the first thing of each kind, in the order in which they came.
        kind_of_each: the number of each thing's kind.

    """

    def __init__(self, things: Iterable[Thing]) -> None:
        numbers: dict[Thing, int] = {}
        self.kind_of_each = [numbers.setdefault(thing, len(numbers)) for thing in things]
        self.kinds = list(numbers)

    def first_of_each_kind(self) -> list[int]:
        """Give the number of the first thing of each kind."""
        first: dict[int, int] = {}
        for number, kind in enumerate(self.kind_of_each):
            first.setdefault(kind, number)
        return list(first.values())
