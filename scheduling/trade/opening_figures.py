"""Weather in which a small unit may be opened."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit

OPENING_FROM_HOUR = Constant(
    "hour of local solar time from which units are opened",
    8,
    7,
    9,
    Unit.HOUR_OF_DAY,
    Evidence.OUR_RULE,
    note="the air has warmed",
)
OPENING_UNTIL_HOUR = Constant(
    "hour of local solar time until which units are opened",
    18,
    17,
    19,
    Unit.HOUR_OF_DAY,
    Evidence.OUR_RULE,
    note="in good time before dusk",
)
LEAST_OPENING_CELSIUS = Constant(
    "air temperature from which a small unit is opened",
    15,
    10,
    18,
    Unit.CELSIUS,
    Evidence.FROM_MEMORY,
    note="from memory: a quick look from 10 to 13, a whole inspection from 15 to "
    "16; a small unit has few bees to warm its brood, so 2 to 3 more than for a quick look",
)
MOST_OPENING_WIND = Constant(
    "mean wind above which a small unit is not opened",
    30,
    20,
    30,
    Unit.KILOMETRES_PER_HOUR,
    Evidence.OUR_RULE,
    (read.BEE_FLIGHT,),
    note="bees stop flying at 19; brood chills and queens are blown off at more",
)
MOST_OPENING_RAIN = Constant(
    "rain above which a unit is not opened",
    0.1,
    0,
    0.3,
    Unit.MILLIMETRES_PER_HOUR,
    Evidence.OUR_RULE,
    note="a tenth of a millimetre is the least that a gauge tells",
)
LEAST_OPENING_HOURS = Constant(
    "hours fit for opening that make a day fit for a visit",
    1,
    1,
    2,
    Unit.HOURS,
    Evidence.OUR_RULE,
    note="a dozen units take about an hour",
)
LONGEST_WAIT = Constant(
    "days that a look is put back for a day fit for opening",
    4,
    2,
    5,
    Unit.DAYS,
    Evidence.OUR_RULE,
    note="further ahead a forecast says little, and the unit goes backwards unseen",
)
WEATHER_STALE = Constant(
    "days after which measured weather is out of date",
    2,
    1,
    3,
    Unit.DAYS,
    Evidence.OUR_RULE,
    note="yesterday may not be measured yet when the morning is sent",
)
