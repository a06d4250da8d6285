"""Answers to yards renamed and removed, and to units removed and moved."""

from collections.abc import Mapping, Sequence

from bot.wording.place_names import place_words
from bot.wording.plain_letters import to_gsm7
from scheduling.places import Place, UnitName

YardUnits = Mapping[str, Sequence[UnitName]]


def yard_renamed(old: str, new: str) -> str:
    """Confirm a yard's new name."""
    return to_gsm7(f"{old} is called {new} now, with all that was noted. undo takes it back.")


def no_such_yard(yards: Sequence[str]) -> str:
    """Refuse a yard that there is not."""
    there = f" There is {', '.join(yards)}." if yards else ""
    return to_gsm7(f"No yard of that name.{there} Nothing changed.")


def name_taken(name: str) -> str:
    """Refuse a name that another yard has."""
    return to_gsm7(f"There is a yard {name} already. Nothing changed.")


def really_remove(yard: str, units: int) -> str:
    """Ask whether a yard with its units is to go."""
    held = "1 unit" if units == 1 else f"{units} units"
    return to_gsm7(f"Remove {yard} with {held}? Nothing is due there then. Type yes or no")


def yard_removed(yard: str) -> str:
    """Confirm that a yard is gone."""
    return to_gsm7(f"{yard} is gone; the log keeps what was noted. undo brings it back.")


def units_removed(places: Sequence[Place], yards: YardUnits) -> str:
    """Confirm that units are gone; ``yards`` as they were before."""
    named = _named(places, yards)
    return to_gsm7(f"Gone: {named}. The log keeps what was noted. undo brings it back.")


def units_moved(moves: Mapping[Place, Place]) -> str:
    """Confirm that units stand elsewhere now."""
    old, new = _named(list(moves), {}), _named(list(moves.values()), {})
    return to_gsm7(f"{old} is {new} now, with all that was noted. undo takes it back.")


def has_a_story(place: Place) -> str:
    """Refuse to move onto a unit of which something is noted."""
    return to_gsm7(f"Something is noted of {place} already. Nothing moved. Say another place.")


def how_to_move() -> str:
    """Refuse a move that does not tell where each unit goes."""
    return "Nothing moved. Say one unit or one box: move 4a to 7b, move box 4 to 9, or a yard."


def _named(places: Sequence[Place], yards: YardUnits) -> str:
    by_yard: dict[str, list[Place]] = {}
    for place in places:
        by_yard.setdefault(place.yard, []).append(place)
    return ", ".join(
        f"{yard} {place_words(found, yards.get(yard, ()))}" for yard, found in by_yard.items()
    )
