"""Weather: what an instrument can read, when queens fly, when a unit is opened, what heat does."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit, in_days

COLDEST_READING = Constant(
    "air temperature below which a reading is a fault",
    (-70, -90, -60),
    Unit.CELSIUS,
    Evidence.FROM_MEMORY,
    note="from memory: the record of the open air, with some room",
)
HOTTEST_READING = Constant(
    "air temperature above which a reading is a fault",
    (60, 57, 65),
    Unit.CELSIUS,
    Evidence.FROM_MEMORY,
    note="from memory: the record of the open air, with some room",
)
WINDIEST_READING = Constant(
    "mean wind above which a reading is a fault",
    (200, 150, 300),
    Unit.KILOMETRES_PER_HOUR,
    Evidence.FROM_MEMORY,
    note="from memory: the mean wind of the strongest storms, short of tornadoes",
)
WETTEST_READING = Constant(
    "rain above which a reading is a fault",
    (310, 250, 400),
    Unit.MILLIMETRES_PER_HOUR,
    Evidence.FROM_MEMORY,
    note="from memory: the record of the open air, with some room",
)


FLYING_FROM_HOUR = Constant(
    "hour of local solar time from which queens fly to mate",
    (11, 10, 13),
    Unit.HOUR_OF_DAY,
    Evidence.READ,
    (read.COLOSS_MATING, read.NORFOLK),
    note="10 in the club text; the peak from 13 is from memory",
)
FLYING_UNTIL_HOUR = Constant(
    "hour of local solar time until which queens fly to mate",
    (16, 16, 18.5),
    Unit.HOUR_OF_DAY,
    Evidence.READ,
    (read.COLOSS_MATING, read.NORFOLK),
    note="virgins were seen out until 18:30 in midsummer",
)
LEAST_FLYING_CELSIUS = Constant(
    "air temperature from which queens fly to mate",
    (20, 16, 20.6),
    Unit.CELSIUS,
    Evidence.READ,
    (read.COLOSS_FLIGHTS, read.NORFOLK, read.HONEY_PRODUCERS, read.WILDFLOWER),
    note="the standard text says above 20; 18 to 19 in a cool country, the 60s F "
    "and 69 F elsewhere",
)
MOST_FLYING_CELSIUS = Constant(
    "air temperature above which queens do not fly to mate",
    (40, 38, 40),
    Unit.CELSIUS,
    Evidence.READ,
    (read.WILDFLOWER,),
    note="104 F; that flight falls off above 35 to 38 is from memory",
)
MOST_FLYING_WIND = Constant(
    "mean wind above which queens do not fly to mate",
    (24, 19, 28),
    Unit.KILOMETRES_PER_HOUR,
    Evidence.FROM_MEMORY,
    (read.COLOSS_FLIGHTS, read.BEE_FLIGHT),
    note="the standard text says low wind and no number; workers stop leaving "
    "at 19; 24 to 28 is from memory, of a study in the subtropics",
)
MOST_FLYING_RAIN = Constant(
    "rain above which an hour is not dry",
    (0.1, 0, 0.3),
    Unit.MILLIMETRES_PER_HOUR,
    Evidence.OUR_RULE,
    note="a tenth of a millimetre is the least that a gauge tells",
)
MOST_FLYING_CLOUD = Constant(
    "share of the sky under cloud above which it is not partly cloudy any more",
    (0.75, 0.5, 0.9),
    Unit.SHARE,
    Evidence.OUR_RULE,
    (read.COLOSS_FLIGHTS,),
    note="the standard text says blue or partly cloudy; six eighths is our line",
)
LEAST_FLYING_SUN = Constant(
    "minutes of sun in an hour from which its sky is fit, whatever the cloud",
    (20, 10, 30),
    Unit.MINUTES,
    Evidence.OUR_RULE,
    (read.COLOSS_FLIGHTS,),
    note="thin high cloud counts as cloud and lets the sun through, so minutes of sun go before it",
)
WHOLE_MATING_DAY = Constant(
    "fit hours that make a whole mating day",
    (2, 1.5, 3),
    Unit.HOURS,
    Evidence.DERIVED,
    (read.COLOSS_FLIGHTS,),
    note="the daily flights last about 1.5 to 3 hours",
)
KNOWN_OF_A_DAY = Constant(
    "share of the hours asked about that must be known for a day to count as known",
    (0.8, 0.6, 1),
    Unit.SHARE,
    Evidence.OUR_RULE,
    note="one hour of five may be missing; it is taken to be like the others",
)


OPENING_FROM_HOUR = Constant(
    "hour of local solar time from which units are opened",
    (8, 7, 9),
    Unit.HOUR_OF_DAY,
    Evidence.OUR_RULE,
    note="the air has warmed",
)
OPENING_UNTIL_HOUR = Constant(
    "hour of local solar time until which units are opened",
    (18, 17, 19),
    Unit.HOUR_OF_DAY,
    Evidence.OUR_RULE,
    note="in good time before dusk",
)
LEAST_OPENING_CELSIUS = Constant(
    "air temperature from which a small unit is opened",
    (15, 10, 18),
    Unit.CELSIUS,
    Evidence.FROM_MEMORY,
    note="from memory: a quick look from 10 to 13, a whole inspection from 15 to "
    "16; a small unit has few bees to warm its brood, so 2 to 3 more than for a quick look",
)
MOST_OPENING_WIND = Constant(
    "mean wind above which a small unit is not opened",
    (30, 20, 30),
    Unit.KILOMETRES_PER_HOUR,
    Evidence.OUR_RULE,
    (read.BEE_FLIGHT,),
    note="bees stop flying at 19; brood chills and queens are blown off at more",
)
MOST_OPENING_RAIN = Constant(
    "rain above which a unit is not opened",
    (0.1, 0, 0.3),
    Unit.MILLIMETRES_PER_HOUR,
    Evidence.OUR_RULE,
    note="a tenth of a millimetre is the least that a gauge tells",
)
LEAST_OPENING_HOURS = Constant(
    "hours fit for opening that make a day fit for a visit",
    (1, 1, 2),
    Unit.HOURS,
    Evidence.OUR_RULE,
    note="a dozen units take about an hour",
)
LONGEST_WAIT = in_days(
    "days that a look is put back for a day fit for opening",
    (4, 2, 5),
    Evidence.OUR_RULE,
    note="further ahead a forecast says little, and the unit goes backwards unseen",
)
WEATHER_STALE = in_days(
    "days after which measured weather is out of date",
    (2, 1, 3),
    Evidence.OUR_RULE,
    note="yesterday may not be measured yet when the morning is sent",
)


HEAT_CAUTION = Constant(
    "heat index from which caution is due",
    (80, 80, 85),
    Unit.FAHRENHEIT,
    Evidence.READ,
    (read.HEAT_BANDS, read.HEAT_TULSA, read.HEAT_AT_WORK),
    note="the lower of two charts where they differ, since a suit holds the heat",
)
HEAT_EXTREME_CAUTION = Constant(
    "heat index from which extreme caution is due",
    (90, 90, 91),
    Unit.FAHRENHEIT,
    Evidence.READ,
    (read.HEAT_BANDS, read.HEAT_TULSA, read.HEAT_AT_WORK),
    note="the lower of two charts where they differ, since a suit holds the heat",
)
HEAT_DANGER = Constant(
    "heat index that is a danger",
    (103, 103, 105),
    Unit.FAHRENHEIT,
    Evidence.READ,
    (read.HEAT_BANDS, read.HEAT_TULSA, read.HEAT_AT_WORK),
    note="the lower of two charts where they differ, since a suit holds the heat",
)
HEAT_EXTREME_DANGER = Constant(
    "heat index that is an extreme danger",
    (125, 115, 130),
    Unit.FAHRENHEIT,
    Evidence.READ,
    (read.HEAT_BANDS, read.HEAT_TULSA, read.HEAT_AT_WORK),
    note="the lower of two charts where they differ, since a suit holds the heat",
)
COLONY_HOT = Constant(
    "air temperature from which a small unit wants shade, air and water",
    (32, 30, 33),
    Unit.CELSIUS,
    Evidence.FROM_MEMORY,
    note="from memory: colonies hang out at 32 to 38; no published figure was found",
)
COLONY_TOO_HOT = Constant(
    "air temperature from which a small unit may leave its box for heat",
    (38, 35, 40),
    Unit.CELSIUS,
    Evidence.FROM_MEMORY,
    note="from memory: new comb softens and small units abscond; no published figure was found",
)
