"""A batch of cells: when to begin, and what becomes of how many."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit

DRONES_BEFORE_GRAFT = Constant(
    "days before the graft on which drone eggs are laid for its matings",
    19,
    14,
    24,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.CLUB_BEE_MATH, read.DRONE_AGE),
    "drones fly about 38 days after the egg, queens mate about 23 days after theirs",
)
COMB_BEFORE_GRAFT = Constant(
    "days before the graft on which the breeder queen is given or confined on the comb",
    4,
    4,
    5,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.CUSHMAN, read.ACCESS_AGRICULTURE),
)
STARTER_BEFORE_GRAFT = Constant(
    "days before the graft on which the starter is made",
    1,
    1,
    2,
    Unit.DAYS,
    Evidence.READ,
    (read.ACCESS_AGRICULTURE,),
)
MAKE_UP_FROM_GRAFT = Constant(
    "days from the graft on which boxes are stocked",
    9,
    8,
    9,
    Unit.DAYS,
    Evidence.READ,
    (read.CUSHMAN,),
)
GRAFTS_ACCEPTED = Constant(
    "share of grafted larvae raised to ripe cells",
    0.75,
    0.60,
    0.93,
    Unit.SHARE,
    Evidence.FROM_MEMORY,
    (read.GRAFT_TRIAL,),
    "60 to 90 % from memory; 39 of 42 on one good day was read",
)
LAYING_PER_CELL = Constant(
    "share of ripe cells placed that become laying queens",
    0.65,
    0.55,
    0.80,
    Unit.SHARE,
    Evidence.DERIVED,
    (read.CAPPED_CELLS, read.PANASIUK, read.FOUR_WAY_BOXES),
    "0.75 emerge and 0.75 of those come back make 0.56; 12 of 27 and 17 of 26 virgins were "
    "measured; 0.80 in four-way boxes",
)
