"""The one table of the trade: every figure the rules use, under one import."""

from scheduling.trade.bees import *  # noqa: F403
from scheduling.trade.care import *  # noqa: F403
from scheduling.trade.development import *  # noqa: F403
from scheduling.trade.food_figures import *  # noqa: F403
from scheduling.trade.limits import *  # noqa: F403
from scheduling.trade.mating import *  # noqa: F403
from scheduling.trade.weather_figures import *  # noqa: F403
