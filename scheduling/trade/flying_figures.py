"""Weather in which a queen flies to mate."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit

FLYING_FROM_HOUR = Constant(
    "hour of local solar time from which queens fly to mate",
    11,
    10,
    13,
    Unit.HOUR_OF_DAY,
    Evidence.READ,
    (read.COLOSS_MATING, read.NORFOLK),
    note="10 in the club text; the peak from 13 is from memory",
)
FLYING_UNTIL_HOUR = Constant(
    "hour of local solar time until which queens fly to mate",
    16,
    16,
    18.5,
    Unit.HOUR_OF_DAY,
    Evidence.READ,
    (read.COLOSS_MATING, read.NORFOLK),
    note="virgins were seen out until 18:30 in midsummer",
)
LEAST_FLYING_CELSIUS = Constant(
    "air temperature from which queens fly to mate",
    20,
    16,
    20.6,
    Unit.CELSIUS,
    Evidence.READ,
    (read.COLOSS_FLIGHTS, read.NORFOLK, read.HONEY_PRODUCERS, read.WILDFLOWER),
    note="the standard text says above 20; 18 to 19 in a cool country, the 60s F "
    "and 69 F elsewhere",
)
MOST_FLYING_CELSIUS = Constant(
    "air temperature above which queens do not fly to mate",
    40,
    38,
    40,
    Unit.CELSIUS,
    Evidence.READ,
    (read.WILDFLOWER,),
    note="104 F; that flight falls off above 35 to 38 is from memory",
)
MOST_FLYING_WIND = Constant(
    "mean wind above which queens do not fly to mate",
    24,
    19,
    28,
    Unit.KILOMETRES_PER_HOUR,
    Evidence.FROM_MEMORY,
    (read.COLOSS_FLIGHTS, read.BEE_FLIGHT),
    note="the standard text says low wind and no number; workers stop leaving "
    "at 19; 24 to 28 is from memory, of a study in the subtropics",
)
MOST_FLYING_RAIN = Constant(
    "rain above which an hour is not dry",
    0.1,
    0,
    0.3,
    Unit.MILLIMETRES_PER_HOUR,
    Evidence.OUR_RULE,
    note="a tenth of a millimetre is the least that a gauge tells",
)
MOST_FLYING_CLOUD = Constant(
    "share of the sky under cloud above which it is not partly cloudy any more",
    0.75,
    0.5,
    0.9,
    Unit.SHARE,
    Evidence.OUR_RULE,
    (read.COLOSS_FLIGHTS,),
    note="the standard text says blue or partly cloudy; six eighths is our line",
)
LEAST_FLYING_SUN = Constant(
    "minutes of sun in an hour from which its sky is fit, whatever the cloud",
    20,
    10,
    30,
    Unit.MINUTES,
    Evidence.OUR_RULE,
    (read.COLOSS_FLIGHTS,),
    note="thin high cloud counts as cloud and lets the sun through, so minutes of sun go before it",
)
WHOLE_MATING_DAY = Constant(
    "fit hours that make a whole mating day",
    2,
    1.5,
    3,
    Unit.HOURS,
    Evidence.DERIVED,
    (read.COLOSS_FLIGHTS,),
    note="the daily flights last about 1.5 to 3 hours",
)
KNOWN_OF_A_DAY = Constant(
    "share of the hours asked about that must be known for a day to count as known",
    0.8,
    0.6,
    1,
    Unit.SHARE,
    Evidence.OUR_RULE,
    note="one hour of five may be missing; it is taken to be like the others",
)
