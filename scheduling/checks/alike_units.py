"""Units of one yard of which the same was told share one reckoning; each keeps its own place."""

from collections.abc import Mapping, Sequence
from datetime import date

from scheduling.alike import Alike
from scheduling.checks.check import Check
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.units.state import UnitState
from scheduling.values import Value

Likeness = tuple[str, tuple[tuple[date, EntryKind, Value | None], ...]]
"""All that the rules read of a unit: its yard, for the weather there, and what was told when."""


def alike_units(told: Mapping[Place, Sequence[Entry]]) -> Alike[Likeness]:
    """Sort units by what was told of them; who told it, and in which message, changes no date."""
    return Alike(
        (place.yard, tuple([(entry.on, entry.kind, entry.value) for entry in entries]))
        for place, entries in told.items()
    )


def state_at(place: Place, entries: tuple[Entry, ...], state: UnitState) -> UnitState:
    """Give the state of a unit that is like another in all but its place."""
    return state if state.place == place else state._replace(place=place, entries=entries)


def checks_at(place: Place, checks: tuple[Check, ...]) -> tuple[Check, ...]:
    """Give the checks of a unit that is like another in all but its place."""
    if not checks or checks[0].place == place:
        return checks
    return tuple([_at(place, check) for check in checks])


def _at(place: Place, check: Check) -> Check:
    dates = check.not_before, check.best, check.by
    return Check(place, check.kind, *dates, check.why, check.follows)
