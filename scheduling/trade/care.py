"""Food, beetle traps by warmth and catch, and the hours in which a unit is not opened."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit, in_days

FEED_LOOK = in_days(
    "days after food was seen or given on which to look again",
    (7, 3, 10),
    Evidence.DERIVED,
    (read.REARING_REMINDERS, read.MANAGING_BEETLES),
    "every 3 days where beetles press, 7 to 10 days between visits in season",
)
FEED_LOOK_WELL_STORED = in_days(
    "days after a full deep frame of food was seen on which to look again",
    (14, 7, 21),
    Evidence.COMMON_PRACTICE,
    note="common practice, no source",
)
FEED_WHEN_LOW = in_days(
    "days after stores were found low until the unit is fed",
    (1, 1, 2),
    Evidence.COMMON_PRACTICE,
    note="common practice, no source",
)
LEAST_STORES = Constant(
    "food below which a unit is fed at once",
    (0.5, 0.25, 1),
    Unit.DEEP_FRAMES,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source; about a kilogram",
)
WELL_STORED = Constant(
    "food from which a unit needs no look for two weeks",
    (1, 0.75, 1),
    Unit.DEEP_FRAMES,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source",
)
ROBBED_LOOK = in_days(
    "days after robbing on which to look for damage and food",
    (1, 1, 2),
    Evidence.COMMON_PRACTICE,
    note="common practice, no source",
)
TRAP_IN = in_days(
    "days after make-up by which the beetle trap is in",
    (0, 0, 3),
    Evidence.COMMON_PRACTICE,
    note="common practice, no source: on the day of make-up",
)
TRAP_SERVICE = in_days(
    "days after a beetle trap was set or emptied until it is emptied again",
    (7, 3, 10),
    Evidence.DERIVED,
    (read.USDA_BEETLES, read.TEMPERATURE_BEETLES, read.MANAGING_BEETLES),
    "shorter than egg and feeding larva together, so that no larva leaves for the soil",
)
VISIT_JOINED = in_days(
    "days by which a feed or a trap is moved to share another visit",
    (2, 0, 3),
    Evidence.OUR_RULE,
    note="one opening of a small unit disturbs it less than two",
)
CLOSED_FROM_HOUR = Constant(
    "hour of the day from which a mating unit is not opened",
    (11, 10, 11),
    Unit.HOUR_OF_DAY,
    Evidence.READ,
    (read.COLOSS_MATING, read.NORFOLK),
)
CLOSED_UNTIL_HOUR = Constant(
    "hour of the day until which a mating unit is not opened",
    (16, 16, 18.5),
    Unit.HOUR_OF_DAY,
    Evidence.READ,
    (read.COLOSS_MATING, read.NORFOLK),
    "virgins were seen out until 18:30 in midsummer",
)


TRAP_SERVICE_COOL = in_days(
    "days between services of a beetle trap when no day is warm",
    (14, 10, 14),
    Evidence.DERIVED,
    (read.TEMPERATURE_BEETLES, read.USDA_BEETLES),
    note="egg and larva take 17 days and more at 21 C",
)
TRAP_SERVICE_COLD = in_days(
    "days between services of a beetle trap when eggs do not hatch",
    (28, 21, 31),
    Evidence.DERIVED,
    (read.TEMPERATURE_BEETLES,),
    note="no egg hatches below its threshold; a look a month for rain and debris",
)
TRAP_SERVICE_MANY = in_days(
    "days to the next service after many beetles",
    (3, 2, 4),
    Evidence.OUR_RULE,
    note="eggs hatch in 2 to 3 days; no figure is published",
)
TRAP_SERVICE_RISING = in_days(
    "days to the next service after a count that rose",
    (5, 4, 7),
    Evidence.OUR_RULE,
    note="between the three days after many and the week after few; no figure is published",
)
BEETLES_RISE = Constant(
    "beetles more than at the service before from which a count has risen",
    (3, 2, 5),
    Unit.BEETLES,
    Evidence.OUR_RULE,
    note="one or two more is chance; no figure is published",
)
BEETLE_WARM = Constant(
    "highest temperature of the day from which beetles breed fast",
    (25, 21, 28),
    Unit.CELSIUS,
    Evidence.DERIVED,
    (read.TEMPERATURE_BEETLES,),
    note="eggs take 61 hours at 21 C and under 22 at 35 C",
)
BEETLE_EGGS_HATCH = Constant(
    "mean temperature under which beetle eggs do not hatch",
    (13.5, 13.5, 16),
    Unit.CELSIUS,
    Evidence.READ,
    (read.TEMPERATURE_BEETLES,),
    note="another study says 16",
)
MANY_BEETLES = Constant(
    "beetles in one trap from which the next service is sooner",
    (10, 5, 20),
    Unit.BEETLES,
    Evidence.OUR_RULE,
    note="no threshold is published; larvae or slime are acted on at once, whatever the count",
)
