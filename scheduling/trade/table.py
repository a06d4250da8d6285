"""The one table of the trade: every figure the rules use, under one import."""

from scheduling.trade import care, development, laying, next_round, rearing
from scheduling.trade.care import *  # noqa: F403
from scheduling.trade.constant import Constant
from scheduling.trade.development import *  # noqa: F403
from scheduling.trade.laying import *  # noqa: F403
from scheduling.trade.next_round import *  # noqa: F403
from scheduling.trade.rearing import *  # noqa: F403

SUBJECTS = (development, laying, next_round, care, rearing)
"""The parts of the table, one file each."""


def every_constant() -> dict[str, Constant]:
    """Every figure of the table by its name."""
    return {
        name: figure
        for subject in SUBJECTS
        for name, figure in vars(subject).items()
        if isinstance(figure, Constant)
    }
