"""Food, beetle traps, and the hours in which a unit is not opened."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit

FEED_LOOK = Constant(
    "days after food was seen or given on which to look again",
    7,
    3,
    10,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.REARING_REMINDERS, read.MANAGING_BEETLES),
    "every 3 days where beetles press, 7 to 10 days between visits in season",
)
FEED_LOOK_WELL_STORED = Constant(
    "days after a full deep frame of food was seen on which to look again",
    14,
    7,
    21,
    Unit.DAYS,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source",
)
FEED_WHEN_LOW = Constant(
    "days after stores were found low until the unit is fed",
    1,
    1,
    2,
    Unit.DAYS,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source",
)
LEAST_STORES = Constant(
    "food below which a unit is fed at once",
    0.5,
    0.25,
    1,
    Unit.DEEP_FRAMES,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source; about a kilogram",
)
WELL_STORED = Constant(
    "food from which a unit needs no look for two weeks",
    1,
    0.75,
    1,
    Unit.DEEP_FRAMES,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source",
)
ROBBED_LOOK = Constant(
    "days after robbing on which to look for damage and food",
    1,
    1,
    2,
    Unit.DAYS,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source",
)
TRAP_IN = Constant(
    "days after make-up by which the beetle trap is in",
    0,
    0,
    3,
    Unit.DAYS,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source: on the day of make-up",
)
TRAP_SERVICE = Constant(
    "days after a beetle trap was set or emptied until it is emptied again",
    7,
    3,
    10,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.USDA_BEETLES, read.TEMPERATURE_BEETLES, read.MANAGING_BEETLES),
    "shorter than egg and feeding larva together, so that no larva leaves for the soil",
)
VISIT_JOINED = Constant(
    "days by which a feed or a trap is moved to share another visit",
    2,
    0,
    3,
    Unit.DAYS,
    Evidence.OUR_RULE,
    note="one opening of a small unit disturbs it less than two",
)
CLOSED_FROM_HOUR = Constant(
    "hour of the day from which a mating unit is not opened",
    11,
    10,
    11,
    Unit.HOUR_OF_DAY,
    Evidence.READ,
    (read.COLOSS_MATING, read.NORFOLK),
)
CLOSED_UNTIL_HOUR = Constant(
    "hour of the day until which a mating unit is not opened",
    16,
    16,
    18.5,
    Unit.HOUR_OF_DAY,
    Evidence.READ,
    (read.COLOSS_MATING, read.NORFOLK),
    "virgins were seen out until 18:30 in midsummer",
)
