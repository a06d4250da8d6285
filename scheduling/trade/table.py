"""The one table of the trade: every figure the rules use, under one import."""

from scheduling.trade import (
    bees,
    beetle_figures,
    care,
    development,
    flying_figures,
    food_figures,
    heat_figures,
    laying_figures,
    mating,
    next_round_figures,
    opening_figures,
    readings,
    rearing,
)
from scheduling.trade.bees import *  # noqa: F403
from scheduling.trade.beetle_figures import *  # noqa: F403
from scheduling.trade.care import *  # noqa: F403
from scheduling.trade.constant import Constant
from scheduling.trade.development import *  # noqa: F403
from scheduling.trade.flying_figures import *  # noqa: F403
from scheduling.trade.food_figures import *  # noqa: F403
from scheduling.trade.heat_figures import *  # noqa: F403
from scheduling.trade.laying_figures import *  # noqa: F403
from scheduling.trade.mating import *  # noqa: F403
from scheduling.trade.next_round_figures import *  # noqa: F403
from scheduling.trade.opening_figures import *  # noqa: F403
from scheduling.trade.readings import *  # noqa: F403
from scheduling.trade.rearing import *  # noqa: F403

SUBJECTS = (
    development,
    laying_figures,
    mating,
    next_round_figures,
    care,
    rearing,
    flying_figures,
    opening_figures,
    heat_figures,
    beetle_figures,
    readings,
    bees,
    food_figures,
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
