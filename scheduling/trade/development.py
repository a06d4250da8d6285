"""From egg to laying queen: how long each stage takes, when to look, and when a batch begins."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit, in_days

GRAFT_FROM_EGG = in_days(
    "days from the egg laid to the graft of a larva 12 to 24 h old",
    (4, 3.5, 5),
    Evidence.READ,
    (read.CUSHMAN, read.HARRIS),
    "a larva of 1.5 days, which some graft, makes it 5",
)
SEALED_FROM_GRAFT = in_days(
    "days from the graft until the cells are sealed",
    (5, 4.5, 6),
    Evidence.READ,
    (read.ITALIAN_REARING, read.GRAFT_TRIAL, read.CUSHMAN),
)
PUPAE_HANG_LOOSE_FROM = in_days(
    "days from the graft after which cells must not be jolted",
    (6, 5, 6),
    Evidence.READ,
    (read.MOVING_CELLS, read.CAPPED_CELLS, read.FRENCH_WORKSHOP),
)
PUPAE_HANG_LOOSE_UNTIL = in_days(
    "days from the graft on which cells must still not be jolted",
    (8, 8, 9),
    Evidence.DERIVED,
    (read.MOVING_CELLS, read.BRUYN),
    "the span runs to day 9 or 10, yet cells may be placed from day 9",
)
RIPE_LOOK_FROM_GRAFT = in_days(
    "days from the graft on which ripe cells are placed",
    (10, 9, 11),
    Evidence.READ,
    (read.CUSHMAN, read.ACCESS_AGRICULTURE, read.BRUYN),
    "10 is the ripe cell of the trade; 9 is tolerated, at 11 the first may be out",
)
RIPE_CELL_AGE = in_days(
    "days since the graft of a cell whose age was not told",
    (10, 9, 11),
    Evidence.OUR_RULE,
    (read.CUSHMAN, read.BRUYN),
    "a cell that is placed without a word on its age is taken for the ripe cell of the trade",
)
EMERGENCE_FROM_GRAFT = in_days(
    "days from the graft until the queen emerges",
    (12, 11, 13),
    Evidence.READ,
    (read.CUSHMAN, read.HARRIS, read.CHUDA),
    "11 in one calendar, 12 in most; a brood nest at 32 C adds a day",
)
EMERGENCE_FROM_EGG = in_days(
    "days from the egg laid until the queen emerges",
    (16, 15, 17),
    Evidence.READ,
    (read.CHUDA, read.HARRIS, read.CLUB_BEE_MATH),
    "measured 16 days 1 hour at 34.5 C; day 17 where the day of laying counts as 1",
)
EMERGENCE_LOOK_FROM_GRAFT = in_days(
    "days from the graft on which to look whether the queen is out",
    (13, 12, 14),
    Evidence.DERIVED,
    (read.CUSHMAN, read.CHUDA, read.PANASIUK),
    "a day after she is due, and before her first flights",
)
STILL_SEALED_LOOK = in_days(
    "days after a cell was seen sealed on which to look again",
    (1, 1, 2),
    Evidence.DERIVED,
    (read.CHUDA,),
    "the coolest nest measured adds 1 day 3 hours",
)
SEALED_TOO_LONG = in_days(
    "days past the latest emergence after which a sealed cell is bad",
    (2, 1, 3),
    Evidence.DERIVED,
    (read.CHUDA,),
    "even at 32 C she is out about 13 days after the graft; two days more leave no doubt",
)
LAYING_LOOK_FROM_EMERGENCE = in_days(
    "days from emergence on which to look for eggs",
    (12, 10, 14),
    Evidence.DERIVED,
    (read.SZABO, read.COLOSS_MATING, read.BTHENET, read.PANASIUK),
    "first eggs at 10.6 days on average; the institutions say 14 days after a ripe cell went in, "
    "which is 12, or 14 days after emergence; the first is followed",
)
VIRGIN_LEFT_ALONE = in_days(
    "days after a virgin was put in before the unit is opened",
    (7, 7, 14),
    Evidence.READ,
    (read.VIRGINS_RELEASED, read.COLOSS_MATING),
)
FIRST_FLIGHT_FROM_EMERGENCE = in_days(
    "days from emergence from which a day without flying weather delays her",
    (6, 5, 7),
    Evidence.DERIVED,
    (read.PANASIUK, read.NSW_REARING, read.BTHENET),
    "no published model was found: each such day is counted as one day of delay",
)
LOOK_AGAIN = in_days(
    "days after a look that found no eggs, or spotty brood, on which to look again",
    (7, 5, 7),
    Evidence.DERIVED,
    (read.BTHENET, read.SZABO),
    "a young queen settles in a few days, and a late one starts within a week",
)
GIVE_UP_FROM_EMERGENCE = in_days(
    "days from emergence after which a queen that does not lay is given up",
    (21, 21, 28),
    Evidence.READ,
    (read.COLOSS_MATING, read.NORFOLK, read.WILDFLOWER),
    "mating should be done within 3 weeks; by 4 weeks it is too late",
)
OWN_EMERGENCE = in_days(
    "days from the loss of the queen until one of the unit's own raising emerges",
    (12, 10, 13),
    Evidence.DERIVED,
    (read.FELL, read.MUEGGELLAND),
    "10 when a four-day larva was chosen, 13 from brood of up to three days",
)
OWN_LAYING_LOOK = in_days(
    "days from leaving a unit to raise its own queen until the look for eggs",
    (24, 21, 30),
    Evidence.DERIVED,
    (read.BTHENET, read.MUEGGELLAND, read.SZABO),
    "21 days after the split in the practice sheet; 12 to emerge and 12 to lay make 24",
)


DRONES_BEFORE_GRAFT = in_days(
    "days before the graft on which drone eggs are laid for its matings",
    (19, 14, 24),
    Evidence.DERIVED,
    (read.CLUB_BEE_MATH, read.DRONE_AGE),
    "drones fly about 38 days after the egg, queens mate about 23 days after theirs",
)
COMB_BEFORE_GRAFT = in_days(
    "days before the graft on which the breeder queen is given or confined on the comb",
    (4, 4, 5),
    Evidence.DERIVED,
    (read.CUSHMAN, read.ACCESS_AGRICULTURE),
)
STARTER_BEFORE_GRAFT = in_days(
    "days before the graft on which the starter is made",
    (1, 1, 2),
    Evidence.READ,
    (read.ACCESS_AGRICULTURE,),
)
MAKE_UP_FROM_GRAFT = in_days(
    "days from the graft on which boxes are stocked",
    (9, 8, 9),
    Evidence.READ,
    (read.CUSHMAN,),
)
GRAFTS_ACCEPTED = Constant(
    "share of grafted larvae raised to ripe cells",
    (0.75, 0.60, 0.93),
    Unit.SHARE,
    Evidence.FROM_MEMORY,
    (read.GRAFT_TRIAL,),
    "60 to 90 % from memory; 39 of 42 on one good day was read",
)
LAYING_PER_CELL = Constant(
    "share of ripe cells placed that become laying queens",
    (0.65, 0.55, 0.80),
    Unit.SHARE,
    Evidence.DERIVED,
    (read.CAPPED_CELLS, read.PANASIUK, read.FOUR_WAY_BOXES),
    "0.75 emerge and 0.75 of those come back make 0.56; 12 of 27 and 17 of 26 virgins were "
    "measured; 0.80 in four-way boxes",
)
