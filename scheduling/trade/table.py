"""The one table of the trade: every figure the rules use, under one import."""

from scheduling.trade import (
    bees,
    beetles,
    care,
    development,
    flying,
    food,
    heat,
    laying,
    mating,
    next_round,
    opening,
    readings,
    rearing,
)
from scheduling.trade.bees import *  # noqa: F403
from scheduling.trade.beetles import *  # noqa: F403
from scheduling.trade.care import *  # noqa: F403
from scheduling.trade.constant import Constant
from scheduling.trade.development import *  # noqa: F403
from scheduling.trade.flying import *  # noqa: F403
from scheduling.trade.food import *  # noqa: F403
from scheduling.trade.heat import *  # noqa: F403
from scheduling.trade.laying import *  # noqa: F403
from scheduling.trade.mating import *  # noqa: F403
from scheduling.trade.next_round import *  # noqa: F403
from scheduling.trade.opening import *  # noqa: F403
from scheduling.trade.readings import *  # noqa: F403
from scheduling.trade.rearing import *  # noqa: F403

SUBJECTS = (
    development,
    laying,
    mating,
    next_round,
    care,
    rearing,
    flying,
    opening,
    heat,
    beetles,
    readings,
    bees,
    food,
)
"""The parts of the table, one file each."""


def every_constant() -> dict[str, Constant]:
    """Every figure of the table by its name."""
    return {
        name: figure
        for subject in SUBJECTS
        for name, figure in vars(subject).items()
        if isinstance(figure, Constant)
    }
