"""Food: what stores weigh, what sugar becomes, what a small colony eats."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit, in_days

HONEY_FRAME = Constant(
    "honey in a full deep frame",
    (2.7, 2.3, 4.5),
    Unit.KILOGRAMS,
    Evidence.READ,
    (read.FRAME_BUILDING, read.COMSTOCK, read.FRAME_ASSEMBLY),
    "6 lb; an old book gives 5 and a trade article more than 10",
)
STORES_PER_SUGAR = Constant(
    "stores made of dry sugar, by weight",
    (1.15, 0.95, 1.25),
    Unit.SHARE,
    Evidence.DERIVED,
    (read.BBKA_FEEDING, read.SYRUP_GALLON),
    "1.25 if nothing is burnt, 0.95 by the rule of 7 lb to the gallon of 2:1; between the two",
)
SUGAR_IN_FONDANT = Constant(
    "sugar in fondant, by weight",
    (0.78, 0.78, 0.78),
    Unit.SHARE,
    Evidence.READ,
    (read.BBKA_FEEDING,),
)
EATEN_BY_BEES = Constant(
    "stores eaten by a thousand bees of a small colony without brood",
    (6.7, 5.2, 8.2),
    Unit.GRAMS_A_DAY_PER_THOUSAND,
    Evidence.READ,
    (read.HARBO_CONSUMPTION,),
    "6.7 with a spread of 1.5 in colonies of 4,400 bees; large ones eat less a head",
)
EATEN_IN_COLD = Constant(
    "the same on a day on which the bees stay in for cold or wet",
    (8.2, 6.7, 8.2),
    Unit.GRAMS_A_DAY_PER_THOUSAND,
    Evidence.OUR_RULE,
    (read.HARBO_CONSUMPTION,),
    "the upper end of what was measured; no figure by temperature was found",
)
EATEN_BY_BROOD = Constant(
    "stores eaten for a thousand cells of brood",
    (18, 6.8, 18),
    Unit.GRAMS_A_DAY_PER_THOUSAND,
    Evidence.FROM_MEMORY,
    note="from memory: the rate of a published model; 142 mg of honey to rear a bee would be 6.8",
)
FEEDER = Constant(
    "syrup in one feeder where the keeper has not said",
    (0.946, 0.5, 1.9),
    Unit.LITRES,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source: a one-quart jar",
)
FORAGE_WORD_HOLDS = in_days(
    "days for which a keeper's word on a flow or a dearth holds",
    (14, 7, 21),
    Evidence.OUR_RULE,
    (read.NSW_FEEDING,),
    "the source says not to feed in a flow and that bees without stores or nectar starve in days",
)
ROBBING_ENTRANCE = Constant(
    "entrance of a unit that is fed in a dearth",
    (19, 10, 20),
    Unit.MILLIMETRES,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source: three quarters of an inch",
)

SYRUP_DENSITY: tuple[tuple[float, float], ...] = (
    (0, 998.2),
    (10, 1038.1),
    (20, 1081.0),
    (30, 1127.0),
    (40, 1176.5),
    (44, 1197.2),
    (48, 1218.6),
    (50, 1229.5),
    (52, 1240.6),
    (54, 1251.8),
    (56, 1263.2),
    (58, 1274.7),
    (60, 1286.4),
    (62, 1298.3),
    (64, 1310.3),
    (66, 1322.4),
    (68, 1334.8),
    (70, 1347.2),
    (80, 1411.7),
)
"""Density of sucrose in water at 20 C: per cent by weight, and kilograms per cubic metre.

Read in ``sources.CRC_SUCROSE``; a straight line between two rows.
"""
