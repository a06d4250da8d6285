"""A small colony's bees and brood: what combs hold, how long bees live, how fast brood comes."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit, in_days

DEEP_SIDE = Constant(
    "comb on one side of a deep frame",
    (8.71, 8.69, 8.8),
    Unit.SQUARE_DECIMETRES,
    Evidence.DERIVED,
    (read.CALIFORNIA_FRAMES,),
    "ten deep frames are given as 2,700 square inches of comb, so 135 to a side",
)
WORKER_CELLS = Constant(
    "worker cells on one side of comb",
    (366, 366, 400),
    Unit.CELLS_PER_SQUARE_DECIMETRE,
    Evidence.DERIVED,
    (read.CALIFORNIA_FRAMES, read.SWISS_STRENGTH),
    "23.6 cells per square inch on American foundation; up to 400 are given for Swiss comb",
)
BROOD_IN_COMB = Constant(
    "cells of a frame of brood that hold brood",
    (0.7, 0.5, 0.9),
    Unit.SHARE,
    Evidence.OUR_RULE,
    note="edges hold pollen and honey and some cells are missed; no source was found",
)
BEES_PER_FRAME = Constant(
    "bees on a deep frame covered on both sides",
    (1900, 1400, 3000),
    Unit.BEES,
    Evidence.READ,
    (read.BURGETT, read.PHOTOGRAPHED_BEES),
    "a single layer on both sides; 1,400 is the mean on occupied combs, 3,000 a packed comb",
)
BEES_PER_SHAKE = Constant(
    "nurse bees in one shake off a frame of open brood",
    (1000, 500, 1900),
    Unit.BEES,
    Evidence.OUR_RULE,
    note="about half of what the comb holds; no source was found",
)
USUAL_BROOD = Constant(
    "brood a unit is stocked with where it was not told",
    (0.67, 0.5, 1),
    Unit.DEEP_FRAMES,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source: about two thirds of a frame",
)
USUAL_SEALED = Constant(
    "share of that brood that is sealed where it was not told",
    (0.75, 0.57, 1),
    Unit.SHARE,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source: sealed for choice, since it emerges sooner; 4 in 7 of any "
    "brood is sealed",
)
USUAL_BEES = Constant(
    "frames of bees a unit is stocked with where it was not told",
    (2, 1, 3),
    Unit.DEEP_FRAMES,
    Evidence.FROM_MEMORY,
    note="from memory: the textbooks say bees of two to three frames",
)
USUAL_SHAKES = Constant(
    "shakes of nurse bees a unit is given where it was not told",
    (1, 0, 2),
    Unit.SHAKES,
    Evidence.COMMON_PRACTICE,
    note="common practice, no source: one extra shake, because nurses stay",
)
FIELD_BEES = Constant(
    "share of the bees on the combs that fly back to the old stand",
    (0.25, 0.1, 0.5),
    Unit.SHARE,
    Evidence.FROM_MEMORY,
    note="from memory: a quarter to a third of a colony forages; no count on brood combs was found",
)
WORKER_LIFE = in_days(
    "days a worker lives in summer",
    (35, 21, 42),
    Evidence.READ,
    (read.AGROSCOPE_LIFE,),
    "three to six weeks; one bee in 35 is taken to die each day",
)
WORKER_FROM_EGG = in_days(
    "days from a worker egg laid until the bee is out",
    (21, 19, 22),
    Evidence.READ,
    (read.CLUB_BEE_MATH, read.WADE),
)
BROOD_SURVIVAL = Constant(
    "share of brood that becomes bees",
    (0.85, 0.75, 0.9),
    Unit.SHARE,
    Evidence.FROM_MEMORY,
    note="from memory: 10 to 25 in 100 are lost between egg and bee",
)
EGGS_FIRST_WEEK = Constant(
    "eggs a new queen lays in a small unit in her first week",
    (100, 50, 200),
    Unit.EGGS_A_DAY,
    Evidence.FROM_MEMORY,
    note="from memory; no count in a three-frame unit was found",
)
EGGS_AFTER = Constant(
    "eggs she lays there after her first week",
    (300, 150, 500),
    Unit.EGGS_A_DAY,
    Evidence.FROM_MEMORY,
    note="from memory; three sides of brood at 21 days to a bee would take 319",
)
BROOD_PER_BEE = Constant(
    "cells of brood that one bee can nurse and cover, as a share of a cell",
    (1, 0.5, 1),
    Unit.SHARE,
    Evidence.OUR_RULE,
    (read.HARBO_SIZES,),
    "the source found most brood per bee at 4,500 bees, without a figure in what was read",
)
BROOD_SIDES = Constant(
    "sides of comb free for brood in a unit of three deep frames",
    (4, 3, 5),
    Unit.COMB_SIDES,
    Evidence.OUR_RULE,
    note="the other two hold food",
)
LEAST_BEES = Constant(
    "bees under which a unit of three deep frames no longer holds its own",
    (2000, 1000, 2500),
    Unit.BEES,
    Evidence.OUR_RULE,
    (read.HARBO_SIZES,),
    "the smallest colonies that worked in the trial had 2,300; no threshold is published",
)
BEE_FRAMES_PER_BROOD_FRAME = Constant(
    "frames of bees that keep one frame of brood warm on a cold night",
    (1, 1, 1.5),
    Unit.DEEP_FRAMES,
    Evidence.FROM_MEMORY,
    note="from memory: bees must cover all brood on both sides",
)
ACCOUNT_HOLDS = in_days(
    "days after make-up for which a unit's bees are reckoned",
    (60, 42, 70),
    Evidence.OUR_RULE,
    note="by then none of the first bees are left and what the new queen laid decides",
)
BEES_AT_ONCE = in_days(
    "days after make-up by which a unit with too few bees for its brood is given more",
    (0, 0, 1),
    Evidence.COMMON_PRACTICE,
    note="common practice, no source: before the first cold night, or the brood is lost",
)
BEES_TOO_LATE = in_days(
    "days after make-up from which more bees no longer save its brood",
    (3, 1, 4),
    Evidence.OUR_RULE,
    note="chilled brood is dead within days; no source was found",
)
