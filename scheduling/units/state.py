"""What a unit is now, folded from its entries."""

from datetime import date
from enum import StrEnum
from typing import NamedTuple

from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.values import Pattern, PutOff


class Stage(StrEnum):
    """How far the unit's queen has come."""

    EMPTY = "empty"
    """Nothing has started here yet, or the unit has ended."""
    WAITING = "waiting"
    """Stocked, or its queen taken or lost: no queen and no cell."""
    CELL = "cell"
    CAGED = "caged"
    RAISING_OWN = "raising_own"
    VIRGIN = "virgin"
    """Out, maturing or mating; also a mated queen released and not yet seen to lay."""
    LAYING = "laying"
    PROVEN = "proven"
    """Good sealed worker brood seen."""
    DRONE_LAYER = "drone_layer"
    LAYING_WORKERS = "laying_workers"
    ENDED = "ended"
    """Dead, absconded or combined."""


class UnitState(NamedTuple):
    """One unit as its standing entries tell it.

    Dates are the yard's local dates; None means not known or not yet. A tuple, because a log of
    a season makes thousands of them, and a dataclass of so many fields is copied in six times
    the time.
    """

    place: Place
    stage: Stage = Stage.EMPTY
    round: int = 0
    """How many queens or cells this unit has been given."""
    started_by: EntryKind | None = None
    started_on: date | None = None
    grafted_on: date | None = None
    """The graft day of the present cell, told or worked out from its age."""
    emergence_due: date | None = None
    """When the present queen emerged, or is expected to emerge."""
    emergence_seen: bool = False
    mated_when_placed: bool = False
    still_sealed_on: date | None = None
    still_caged_on: date | None = None
    released_on: date | None = None
    """When she was let out, or must have been when a later look was for her eggs."""
    virgin_seen_on: date | None = None
    queen_seen_on: date | None = None
    no_eggs_on: date | None = None
    """The latest look that found no eggs."""
    eggs_on: date | None = None
    """The first day eggs of the present queen were seen."""
    eggs_last_on: date | None = None
    """The latest day on which she was seen to have laid."""
    sealed_on: date | None = None
    pattern: Pattern | None = None
    lost_by: EntryKind | None = None
    lost_on: date | None = None
    """How and when the last queen or cell was lost or taken."""
    own_cells_on: date | None = None
    made_up_on: date | None = None
    young_brood_on: date | None = None
    """The last day on which eggs of any queen were, or may have been, in the unit."""
    brood_added_on: date | None = None
    food_seen_on: date | None = None
    food_deep_frames: float | None = None
    fed_on: date | None = None
    trap_on: date | None = None
    """When the beetle trap was set or last serviced."""
    beetles: int | None = None
    robbed_on: date | None = None
    looked_on: date | None = None
    """The last day the unit is known to have been opened."""
    put_offs: tuple[PutOff, ...] = ()
    """What was put off and has not been answered since, each with its check named."""
    days_not_flying: tuple[date, ...] = ()
    """Days on which, by the keeper's word, no queen could fly at this yard."""
    entries: tuple[Entry, ...] = ()
    """The standing entries about this unit, oldest first."""
