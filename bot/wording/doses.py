"""How much to feed, in the keeper's own feeders."""

from bot.wording.quantities import number
from scheduling.checks.dose import Dose


def dose_words(dose: Dose | None) -> str:
    """``2 jars 1:1``, or litres where no whole feeder fits; nothing for None."""
    if dose is None:
        return ""
    if dose.feeders is None:
        return f"{number(dose.litres)} l {dose.ratio}"
    return f"{dose.feeders} {'jar' if dose.feeders == 1 else 'jars'} {dose.ratio}"
