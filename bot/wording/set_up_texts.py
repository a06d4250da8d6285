"""Answers to setting up yards, boxes and times by chat."""

from collections.abc import Mapping, Sequence
from datetime import time

from bot.wording.days_and_numbers import number
from bot.wording.place_names import compact
from bot.wording.plain_letters import to_gsm7
from scheduling.places import UnitName


def clock(at: time) -> str:
    """Write a time of day as ``6:30``."""
    return f"{at.hour}:{at.minute:02d}"


def yard_made(name: str, zone: str) -> str:
    """Confirm a new yard and say what it needs next."""
    return to_gsm7(f"Yard {name} made, clock {zone}. Now its boxes, as in: boxes 1-12 of 3")


def yard_turned_to(name: str, units: int) -> str:
    """Say that the talk turned to a yard that exists."""
    return to_gsm7(f"Now at {name}, {_units(units)}. What you send is about this yard.")


def yards_list(yards: Mapping[str, Sequence[UnitName]]) -> str:
    """List every yard with its units."""
    if not yards:
        return no_yard()
    lines = [f"{name}: {_held(units)}" for name, units in yards.items()]
    return to_gsm7("\n".join(lines))


def _held(units: Sequence[UnitName]) -> str:
    return f"{compact(units, units)} ({_units(len(units))})" if units else "no boxes yet"


def _units(count: int) -> str:
    return "1 unit" if count == 1 else f"{count} units"


def boxes_made(yard: str, added: Sequence[UnitName], units: Sequence[UnitName]) -> str:
    """Confirm boxes added to a yard; ``units`` are all it has now."""
    if not added:
        return to_gsm7(f"{yard} has these boxes already: {compact(units, units)}.")
    first = added[0]
    return to_gsm7(
        f"{yard}: {_units(len(added))} added, {compact(added, units)}. "
        f"Tell me what goes in, as in: 10 day cell in {first}"
    )


def box_is_divided_otherwise(yard: str, box: int, units: Sequence[UnitName]) -> str:
    """Refuse a box named with another number of compartments than it has."""
    names = " ".join(str(unit) for unit in units)
    return to_gsm7(f"Box {box} at {yard} is {names} already. Nothing changed.")


def morning_set(at: time, zone: str) -> str:
    """Confirm the person's morning time."""
    return to_gsm7(f"Morning message at {clock(at)}, {zone} time. No message when nothing is due.")


def zone_set(zone: str, local: time) -> str:
    """Confirm the clock; ``local`` is the time there now."""
    return to_gsm7(f"Clock set to {zone}. It is {clock(local)} there now.")


def zone_unknown(word: str, near: Sequence[str] = ()) -> str:
    """Refuse an unknown time zone; ``near`` are names like it."""
    asked = f" Did you mean {' or '.join(near)}?" if near else ""
    return to_gsm7(f"No time zone {word}.{asked} Write it as in: zone America/Chicago")


def location_set(yard: str, latitude: float, longitude: float) -> str:
    """Confirm a yard's place on the map (degrees, north and east positive)."""
    return to_gsm7(f"{yard} is at {latitude:.4f}, {longitude:.4f}.")


def feeder_set(litres: float) -> str:
    """Confirm what one feeder holds."""
    return f"One feeder is {number(litres)} l: 'fed 4a one jar' counts that."


def no_yard() -> str:
    """Ask for a yard, without which nothing can be noted."""
    return "No yard yet. Make one, as in: new yard River"


def which_yard(yards: Sequence[str], example: str) -> str:
    """Ask which yard a command is about."""
    return to_gsm7(f"Which yard: {' or '.join(yards)}? Say it first, as in: {yards[0]} {example}")
