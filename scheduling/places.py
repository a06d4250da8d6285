"""Where an entry happened: a unit of a box, a batch of grafted cells, or a whole yard."""

import re
from dataclasses import dataclass

_UNIT = re.compile(r"(?P<box>[1-9]\d{0,3})(?P<letter>[a-h]?)")

LETTERS = "abcdefgh"
"""Letters of the compartments of one box, left to right; at most eight to a box."""


@dataclass(frozen=True, order=True)
class UnitName:
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


@dataclass(frozen=True)
class Place:
    """What an entry or a check is about, within one crew.

    ``yard`` is the yard's name. With ``unit`` it is one unit; with ``batch`` (the batch's name,
    as a rule the day it was grafted) a batch of cells; with neither the yard as a whole.
    """

    yard: str
    unit: UnitName | None = None
    batch: str | None = None

    def __post_init__(self) -> None:
        if self.unit is not None and self.batch is not None:
            raise ValueError("a place is a unit or a batch, not both")
        if not self.yard:
            raise ValueError("a place needs its yard")

    def __hash__(self) -> int:
        """Hash the parts at once: a crew's log is sorted by place, entry for entry."""
        if self.unit is not None:
            return hash((self.yard, self.unit.box, self.unit.letter))
        return hash((self.yard, self.batch))

    def __str__(self) -> str:
        if self.unit is not None:
            return f"{self.yard} {self.unit}"
        if self.batch is not None:
            return f"{self.yard} batch {self.batch}"
        return self.yard
