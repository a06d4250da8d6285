"""What a unit's bees and brood follow from: its make-up, what was given since, and its queens."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.entries import Entry
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind, QueenNews
from scheduling.trade import table
from scheduling.trade.constant import Constant
from scheduling.values import MakeUp


@dataclass(frozen=True, slots=True)
class Stock:
    """Bees and cells of brood that go into a unit on one day.

    Attributes:
        bees: bees that sit on the combs, field bees among them.
        nurses: young bees shaken in from open brood; these stay.
        open_cells: eggs and larvae.
        sealed_cells: sealed brood.

    """

    bees: float = 0
    nurses: float = 0
    open_cells: float = 0
    sealed_cells: float = 0


def stocked(told: MakeUp) -> Stock:
    """Count what a unit was made up with; of what was not told the usual is taken."""
    brood = brood_cells(_or_usual(told.brood_frames, table.USUAL_BROOD))
    sealed = _or_usual(told.sealed_share, table.USUAL_SEALED)
    return Stock(
        bees=_or_usual(told.bee_frames, table.USUAL_BEES) * table.BEES_PER_FRAME.value,
        nurses=_or_usual(told.nurse_shakes, table.USUAL_SHAKES) * table.BEES_PER_SHAKE.value,
        open_cells=brood * (1 - sealed),
        sealed_cells=brood * sealed,
    )


def _or_usual(told: float | None, usual: Constant) -> float:
    return usual.value if told is None else told


def brood_frame() -> Stock:
    """Count a usual frame of brood given without its bees."""
    brood = brood_cells(table.USUAL_BROOD.value)
    sealed = table.USUAL_SEALED.value
    return Stock(open_cells=brood * (1 - sealed), sealed_cells=brood * sealed)


def shake() -> Stock:
    """Count one shake of nurse bees."""
    return Stock(nurses=table.BEES_PER_SHAKE.value)


def brood_cells(frames: float) -> float:
    """Give the cells of brood on so many deep frames of brood."""
    return frames * 2 * cells_per_side() * table.BROOD_IN_COMB.value


def cells_per_side() -> float:
    """Give the worker cells on one side of a deep frame."""
    return table.DEEP_SIDE.value * table.WORKER_CELLS.value


@dataclass(frozen=True)
class Added:
    """Bees or brood put in on a later day, counted from make-up."""

    day: int
    stock: Stock


@dataclass(frozen=True, slots=True)
class Laying:
    """A queen's span of laying, in days from make-up; ``last`` is None while it goes on."""

    first: int
    last: int | None = None


_LAYS_NO_MORE = frozenset({QueenNews.NO_EGGS, QueenNews.LOST, QueenNews.ANOTHER})


def layings_since(
    start: date, entries: Iterable[Entry], expected: date | None = None
) -> tuple[Laying, ...]:
    """Tell when queens laid since make-up, as far as eggs or sealed brood were seen.

    ``entries`` are those from make-up on, oldest first; ``expected`` is the day on which the
    present queen, not seen to lay yet, should begin.
    """
    spans: list[Laying] = []
    since: date | None = None
    for entry in entries:
        news = ENTRY_FACTS[entry.kind].queen
        if news is QueenNews.LAYS:
            since = since or _first_eggs(entry)
        elif news in _LAYS_NO_MORE and since is not None:
            spans.append(Laying((since - start).days, (max(since, entry.on) - start).days))
            since = None
    began = since or expected
    return (*spans, Laying((began - start).days)) if began is not None else tuple(spans)


def _first_eggs(entry: Entry) -> date:
    """Give the day of the eggs seen; sealed brood was laid at least nine days before."""
    if entry.kind is EntryKind.EGGS:
        return entry.on
    return table.WORKER_OPEN_BROOD.before(entry.on)


def last_make_up(entries: Sequence[Entry]) -> tuple[date, MakeUp] | None:
    """Give the day of the last make-up and what was told of it, None where none was told."""
    for entry in reversed(entries):
        if entry.kind is EntryKind.MADE_UP:
            assert entry.value is None or isinstance(entry.value, MakeUp)  # noqa: S101 - checked
            return entry.on, entry.value or MakeUp()
    return None


def strength_told(told: MakeUp) -> bool:
    """Tell whether bees or brood of a make-up were told; else all of it is as usual."""
    return not (told.brood_frames is told.bee_frames is told.nurse_shakes is None)


_GIVEN: dict[EntryKind, Stock] = {
    EntryKind.BROOD_ADDED: brood_frame(),
    EntryKind.BEES_ADDED: shake(),
}


def added_since(start: date, entries: Iterable[Entry]) -> tuple[Added, ...]:
    """Tell of the bees and brood given since make-up; ``entries`` are those from make-up on."""
    given = [entry for entry in entries if entry.kind in _GIVEN]
    return tuple([Added((entry.on - start).days, _GIVEN[entry.kind]) for entry in given])
