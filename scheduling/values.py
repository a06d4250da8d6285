"""What an entry measured, each number with its unit in its name.

An unknown number is ``None``, never zero.
"""

import re
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from scheduling.check_kinds import CheckKind


class Pattern(StrEnum):
    """How even the sealed worker brood is."""

    GOOD = "good"
    SPOTTY = "spotty"


class Fate(StrEnum):
    """What became of a queen that was taken out of her unit."""

    SOLD = "sold"
    USED = "used"
    BANKED = "banked"


class Flying(StrEnum):
    """The keeper's own word on a day: could a queen fly or not."""

    FLYING = "flying"
    NOT_FLYING = "not_flying"


class Forage(StrEnum):
    """The keeper's word on what the bees bring in."""

    FLOW = "flow"
    DEARTH = "dearth"


_CELL_AGE = re.compile(r"(?P<days>\d+(?:\.\d+)?)(?P<egg>e?)")


@dataclass(frozen=True)
class CellAge:
    """Age of a queen cell in elapsed days, since the graft or, if known so, since the egg.

    Exactly one of the two is set. Written ``10`` (since the graft) or ``14e`` (since the egg).
    """

    days_since_graft: float | None = None
    days_since_egg: float | None = None

    def __post_init__(self) -> None:
        if (self.days_since_graft is None) == (self.days_since_egg is None):
            raise ValueError("a cell's age counts from the graft or from the egg")

    def __str__(self) -> str:
        if self.days_since_graft is not None:
            return f"{self.days_since_graft:g}"
        return f"{self.days_since_egg:g}e"

    @classmethod
    def parse(cls, text: str) -> "CellAge":
        """Read ``10`` or ``14e``.

        Raises:
            ValueError: the text is neither.
        """
        found = _CELL_AGE.fullmatch(text.strip().lower())
        if found is None:
            raise ValueError(f"{text!r} is not a cell's age; write days since the graft, or 14e")
        days = float(found["days"])
        return cls(days_since_egg=days) if found["egg"] else cls(days_since_graft=days)


@dataclass(frozen=True)
class VirginAge:
    """Age of a virgin placed in a unit, in elapsed days since she emerged."""

    days: float


@dataclass(frozen=True)
class MakeUp:
    """What a unit was stocked with."""

    brood_frames: float | None = None
    sealed_share: float | None = None
    bee_frames: float | None = None
    nurse_shakes: float | None = None
    food_frames: float | None = None


@dataclass(frozen=True)
class Graft:
    """A batch of grafted larvae: how many, of which mother, how old in hours from hatching."""

    cells: int | None = None
    mother: str | None = None
    larva_age_hours: float | None = None


@dataclass(frozen=True)
class Feed:
    """Food given: syrup (with its sugar to water ratio by weight, as "1:1"), honey or fondant."""

    syrup_litres: float | None = None
    ratio: str | None = None
    honey_frames: float | None = None
    fondant_kg: float | None = None


@dataclass(frozen=True)
class Stores:
    """Food seen, in full deep frames."""

    deep_frames: float


@dataclass(frozen=True)
class TrapCount:
    """Beetles counted in a trap."""

    beetles: int


@dataclass(frozen=True)
class Brood:
    """The look of the sealed brood."""

    pattern: Pattern


@dataclass(frozen=True)
class Taken:
    """What became of the queen, and where she went in the keeper's words."""

    fate: Fate | None = None
    destination: str | None = None


@dataclass(frozen=True)
class DayWeather:
    """The keeper's word on the day's flying weather at a yard."""

    flying: Flying


@dataclass(frozen=True)
class YardForage:
    """The keeper's word on the forage at a yard, from that day on."""

    forage: Forage


@dataclass(frozen=True)
class PutOff:
    """A check put off until a date; without ``check``, whatever was due."""

    until: date
    check: CheckKind | None = None


@dataclass(frozen=True)
class Struck:
    """The entry, by its ``uid``, that this one strikes."""

    uid: str


@dataclass(frozen=True)
class Moved:
    """The entry, by its ``uid``, with which the unit left its last place."""

    left: str


Value = (
    CellAge
    | VirginAge
    | MakeUp
    | Graft
    | Feed
    | Stores
    | TrapCount
    | Brood
    | Taken
    | DayWeather
    | YardForage
    | PutOff
    | Struck
    | Moved
)
