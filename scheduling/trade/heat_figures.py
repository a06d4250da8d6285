"""Heat that is hard on colonies and on their keeper."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit

HEAT_CAUTION = Constant(
    "heat index from which caution is due",
    80,
    80,
    85,
    Unit.FAHRENHEIT,
    Evidence.READ,
    (read.HEAT_BANDS, read.HEAT_TULSA, read.HEAT_AT_WORK),
    note="the lower of two charts where they differ, since a suit holds the heat",
)
HEAT_EXTREME_CAUTION = Constant(
    "heat index from which extreme caution is due",
    90,
    90,
    91,
    Unit.FAHRENHEIT,
    Evidence.READ,
    (read.HEAT_BANDS, read.HEAT_TULSA, read.HEAT_AT_WORK),
    note="the lower of two charts where they differ, since a suit holds the heat",
)
HEAT_DANGER = Constant(
    "heat index that is a danger",
    103,
    103,
    105,
    Unit.FAHRENHEIT,
    Evidence.READ,
    (read.HEAT_BANDS, read.HEAT_TULSA, read.HEAT_AT_WORK),
    note="the lower of two charts where they differ, since a suit holds the heat",
)
HEAT_EXTREME_DANGER = Constant(
    "heat index that is an extreme danger",
    125,
    115,
    130,
    Unit.FAHRENHEIT,
    Evidence.READ,
    (read.HEAT_BANDS, read.HEAT_TULSA, read.HEAT_AT_WORK),
    note="the lower of two charts where they differ, since a suit holds the heat",
)
COLONY_HOT = Constant(
    "air temperature from which a small unit wants shade, air and water",
    32,
    30,
    33,
    Unit.CELSIUS,
    Evidence.FROM_MEMORY,
    note="from memory: colonies hang out at 32 to 38; no published figure was found",
)
COLONY_TOO_HOT = Constant(
    "air temperature from which a small unit may leave its box for heat",
    38,
    35,
    40,
    Unit.CELSIUS,
    Evidence.FROM_MEMORY,
    note="from memory: new comb softens and small units abscond; no published figure was found",
)
