"""Sorting out what is alike, so that it is reckoned once."""

from collections.abc import Hashable, Iterable
from typing import Generic, TypeVar

Thing = TypeVar("Thing", bound=Hashable)


class Alike(Generic[Thing]):
    """Many things, and the few kinds of which they are.

    Attributes:
        kinds: one of each kind, in the order in which they first came.
        kind_of_each: the number of each thing's kind.

    """

    def __init__(self, things: Iterable[Thing]) -> None:
        numbers: dict[Thing, int] = {}
        self.kind_of_each = [numbers.setdefault(thing, len(numbers)) for thing in things]
        self.kinds = list(numbers)
