"""Where an entry happened: a unit of a box, a batch of grafted cells, or a whole yard."""

import re
from typing import NamedTuple, Self

_UNIT = re.compile(r"(?P<box>[1-9]\d{0,3})(?P<letter>[a-h]?)")

LETTERS = "abcdefgh"
"""Letters of the compartments of one box, left to right; at most eight to a box."""


class UnitName(NamedTuple):
    """One compartment of a box ("4b"), or a whole single box ("7").

    ``letter`` is empty for a box that is not divided. Units sort as they stand in the yard.
    """

    box: int
    letter: str = ""

    def __str__(self) -> str:
        return f"{self.box}{self.letter}"

    @classmethod
    def parse(cls, text: str) -> "UnitName":
        """Read "4b" or "7".

        Raises:
            ValueError: the text is not a box number with at most one letter a to h.
        """
        found = _UNIT.fullmatch(text.strip().lower())
        if found is None:
            raise ValueError(f"{text!r} is not a unit; write a box number and a letter, as in 4b")
        return cls(int(found["box"]), found["letter"])


class _Parts(NamedTuple):
    yard: str
    unit: UnitName | None
    batch: str | None


class Place(_Parts):
    """What an entry or a check is about, within one crew.

    ``yard`` is the yard's name. With ``unit`` it is one unit; with ``batch`` (the batch's name,
    as a rule the day it was grafted) a batch of cells; with neither the yard as a whole.

    Places and units are tuples, because everything is looked up by them: a crew's calendar and
    one answer compare and hash them some ten thousand times.
    """

    __slots__ = ()

    def __new__(cls, yard: str, unit: UnitName | None = None, batch: str | None = None) -> Self:
        """Make a place.

        Raises:
            ValueError: it would be a unit and a batch, or has no yard.
        """
        if unit is not None and batch is not None:
            raise ValueError("a place is a unit or a batch, not both")
        if not yard:
            raise ValueError("a place needs its yard")
        return super().__new__(cls, yard, unit, batch)

    def __str__(self) -> str:
        if self.unit is not None:
            return f"{self.yard} {self.unit}"
        if self.batch is not None:
            return f"{self.yard} batch {self.batch}"
        return self.yard
