"""How much to feed, in the keeper's own feeders."""

from bot.wording.quantities import counted, number
from scheduling.checks.dose import Dose
from scheduling.trade import table


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
