"""How often a beetle trap is emptied, by warmth and by what was in it."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit

TRAP_SERVICE_COOL = Constant(
    "days between services of a beetle trap when no day is warm",
    14,
    10,
    14,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.TEMPERATURE_BEETLES, read.USDA_BEETLES),
    note="egg and larva take 17 days and more at 21 C",
)
TRAP_SERVICE_COLD = Constant(
    "days between services of a beetle trap when eggs do not hatch",
    28,
    21,
    31,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.TEMPERATURE_BEETLES,),
    note="no egg hatches below its threshold; a look a month for rain and debris",
)
TRAP_SERVICE_MANY = Constant(
    "days to the next service after many beetles",
    3,
    2,
    4,
    Unit.DAYS,
    Evidence.OUR_RULE,
    note="eggs hatch in 2 to 3 days; no figure is published",
)
TRAP_SERVICE_RISING = Constant(
    "days to the next service after a count that rose",
    5,
    4,
    7,
    Unit.DAYS,
    Evidence.OUR_RULE,
    note="between the three days after many and the week after few; no figure is published",
)
BEETLES_RISE = Constant(
    "beetles more than at the service before from which a count has risen",
    3,
    2,
    5,
    Unit.BEETLES,
    Evidence.OUR_RULE,
    note="one or two more is chance; no figure is published",
)
BEETLE_WARM = Constant(
    "highest temperature of the day from which beetles breed fast",
    25,
    21,
    28,
    Unit.CELSIUS,
    Evidence.DERIVED,
    (read.TEMPERATURE_BEETLES,),
    note="eggs take 61 hours at 21 C and under 22 at 35 C",
)
BEETLE_EGGS_HATCH = Constant(
    "mean temperature under which beetle eggs do not hatch",
    13.5,
    13.5,
    16,
    Unit.CELSIUS,
    Evidence.READ,
    (read.TEMPERATURE_BEETLES,),
    note="another study says 16",
)
MANY_BEETLES = Constant(
    "beetles in one trap from which the next service is sooner",
    10,
    5,
    20,
    Unit.BEETLES,
    Evidence.OUR_RULE,
    note="no threshold is published; larvae or slime are acted on at once, whatever the count",
)
