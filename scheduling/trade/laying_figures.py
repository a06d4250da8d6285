"""The laying queen: proof of her brood, when she may be taken, and the caged queen's start."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit

SEALED_BROOD_LOOK = Constant(
    "days from the first eggs seen on which sealed worker brood proves her",
    9,
    8,
    14,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.COLOSS_MATING, read.WADE, read.CLUB_BEE_MATH),
    "worker cells are sealed 8 to 9 days after the egg; later the first of them emerge",
)
TAKE_FROM_EGGS = Constant(
    "days of laying before a queen is taken",
    14,
    7,
    28,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.FRENCH_WORKSHOP, read.BREEDER_DATES, read.COLOSS_MATING),
    "4 days in one breeder's dates, 7 to 20 in a calendar, 28 in a survival trial from memory; "
    "14 days and sealed brood are asked for here",
)
WORKER_OPEN_BROOD = Constant(
    "days from a worker egg laid until its cell is sealed",
    9,
    8,
    9,
    Unit.DAYS,
    Evidence.READ,
    (read.WADE, read.CLUB_BEE_MATH),
)
LAYING_WORKERS = Constant(
    "days from the last open brood until laying workers become likely",
    14,
    14,
    21,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.COLLISON,),
    "the source says about two weeks queenless; open brood holds them back too, so the count "
    "starts at the last of it; 21 from memory",
)
RELEASE_LOOK = Constant(
    "days a caged queen has been in on which to see that she is out",
    3,
    3,
    5,
    Unit.DAYS,
    Evidence.READ,
    (read.QUEEN_RELEASE, read.INTRODUCTION_SHEET),
)
RELEASE_AGAIN = Constant(
    "days after a queen was seen still caged on which she is let out",
    1,
    1,
    2,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.INTRODUCTION_SHEET,),
    "day 3 to day 5 is two days",
)
LAYING_LOOK_FROM_RELEASE = Constant(
    "days from her release on which to look for a mated queen's eggs",
    7,
    7,
    10,
    Unit.DAYS,
    Evidence.FROM_MEMORY,
    note="from memory: extension advice is 7 to 10 days",
)
GIVE_UP_FROM_RELEASE = Constant(
    "days from her release after which a mated queen without eggs is given up",
    14,
    14,
    21,
    Unit.DAYS,
    Evidence.OUR_RULE,
    note="twice the time in which she is looked for; no source was found",
)
