"""From emergence to the first egg: how long, in what weather, and how many are lost on the way."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit

MATURE_FROM_EMERGENCE = Constant(
    "days from emergence until a virgin is old enough to mate",
    5.5,
    5,
    7,
    Unit.DAYS,
    Evidence.READ,
    (read.HONEY_PRODUCERS, read.MUEGGELLAND, read.EVERSWEET),
    "5 to 6 days in most texts, about 7 in one",
)
MATING_AGE = Constant(
    "days from emergence until a queen mates, in fair weather",
    8,
    5,
    14,
    Unit.DAYS,
    Evidence.READ,
    (read.PANASIUK, read.BTHENET, read.APIS_VET),
    "7 and 9 days were measured in two months; the range is one text's. The walk is not fitted to "
    "it but held against it",
)
FIRST_EGG_FROM_MATING = Constant(
    "days from the last mating until the first egg",
    3,
    2,
    4,
    Unit.DAYS,
    Evidence.READ,
    (read.NATURAL_MATING, read.NORFOLK, read.EVERSWEET),
    "2.78 to 3.37 days measured; within 2 in one text, 2 or more in another; the upper end of 4 "
    "is from memory",
)
FIRST_EGG_FROM_EMERGENCE = Constant(
    "days from emergence until the first egg, on average",
    10.6,
    4,
    22,
    Unit.DAYS,
    Evidence.READ,
    (read.SZABO,),
    "mean and range of one large trial; two smaller means are 11.5 and 14 days",
)
CELLS_EMERGED = Constant(
    "share of ripe cells placed from which a queen emerges",
    0.75,
    0.75,
    0.90,
    Unit.SHARE,
    Evidence.READ,
    (read.CAPPED_CELLS,),
    "one text only; the upper end is from memory",
)
BACK_FROM_MATING = Constant(
    "share of emerged queens that come back mated",
    0.75,
    0.44,
    0.80,
    Unit.SHARE,
    Evidence.READ,
    (read.CAPPED_CELLS, read.PANASIUK, read.NATURAL_MATING),
    "0.75 in one text, 0.44 and 0.65 measured in one place, 0.54 to 0.79 in another",
)
YOUNG_QUEEN_LOST_A_DAY = Constant(
    "share of young queens lost in the unit each day, apart from flights",
    0.002,
    0,
    0.005,
    Unit.SHARE,
    Evidence.OUR_RULE,
    note="no rate was found; small enough that cells placed still give the planning share",
)
QUEEN_MISSED = Constant(
    "share of looks that miss a young queen who is there",
    0.3,
    0.1,
    0.5,
    Unit.SHARE,
    Evidence.OUR_RULE,
    note="no measured share was found; virgins are small, quick and easily overlooked",
)
EGGS_MISSED = Constant(
    "share of looks that miss eggs that are there",
    0.05,
    0.01,
    0.2,
    Unit.SHARE,
    Evidence.OUR_RULE,
    note="no measured share was found; first eggs are few and stand upright in the cells",
)
