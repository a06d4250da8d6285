"""Numbers with their unit, as a keeper writes them; food in the keeper's own feeders."""

from scheduling.colony.feeding import Dose
from scheduling.trade import table


def number(amount: float) -> str:
    """Write at most two decimals and no empty ones: ``0.95``, ``2``."""
    return f"{amount:.2f}".rstrip("0").rstrip(".")


def counted(amount: float, one: str, many: str) -> str:
    """Write ``1 frame``, ``0.5 frame``, ``2 frames``, ``0 frames``."""
    return f"{number(amount)} {one if 0 < amount <= 1 else many}"


def percent(share: float) -> str:
    """Write a share of 0 to 1 as ``60%``."""
    return f"{share * 100:.0f}%"


def overfed_words(places: str) -> str:
    """Say that a unit is full, and why no more should be given."""
    frames = counted(table.WELL_STORED.value, "deep frame", "deep frames")
    return f"{places} over {frames} of food: stop, more brings beetles and leaves no room to lay."


def dose_words(dose: Dose | None) -> str:
    """``2 jars 1:1``, or litres where no whole feeder fits; nothing for None."""
    if dose is None:
        return ""
    if dose.feeders is None:
        return f"{number(dose.litres)} l {dose.ratio}"
    return f"{dose.feeders} {'jar' if dose.feeders == 1 else 'jars'} {dose.ratio}"
