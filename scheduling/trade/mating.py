"""From emergence to the first egg, the laying queen and what is taken of her, and the next cell."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit, in_days

MATURE_FROM_EMERGENCE = in_days(
    "days from emergence until a virgin is old enough to mate",
    (5.5, 5, 7),
    Evidence.READ,
    (read.HONEY_PRODUCERS, read.MUEGGELLAND, read.EVERSWEET),
    "5 to 6 days in most texts, about 7 in one",
)
MATING_AGE = in_days(
    "days from emergence until a queen mates, in fair weather",
    (8, 5, 14),
    Evidence.READ,
    (read.PANASIUK, read.BTHENET, read.APIS_VET),
    "7 and 9 days were measured in two months; the range is one text's. The walk is not fitted to "
    "it but held against it",
)
FIRST_EGG_FROM_MATING = in_days(
    "days from the last mating until the first egg",
    (3, 2, 4),
    Evidence.READ,
    (read.NATURAL_MATING, read.NORFOLK, read.EVERSWEET),
    "2.78 to 3.37 days measured; within 2 in one text, 2 or more in another; the upper end of 4 "
    "is from memory",
)
FIRST_EGG_FROM_EMERGENCE = in_days(
    "days from emergence until the first egg, on average",
    (10.6, 4, 22),
    Evidence.READ,
    (read.SZABO,),
    "mean and range of one large trial; two smaller means are 11.5 and 14 days",
)
CELLS_EMERGED = Constant(
    "share of ripe cells placed from which a queen emerges",
    (0.75, 0.75, 0.90),
    Unit.SHARE,
    Evidence.READ,
    (read.CAPPED_CELLS,),
    "one text only; the upper end is from memory",
)
BACK_FROM_MATING = Constant(
    "share of emerged queens that come back mated",
    (0.75, 0.44, 0.80),
    Unit.SHARE,
    Evidence.READ,
    (read.CAPPED_CELLS, read.PANASIUK, read.NATURAL_MATING),
    "0.75 in one text, 0.44 and 0.65 measured in one place, 0.54 to 0.79 in another",
)
YOUNG_QUEEN_LOST_A_DAY = Constant(
    "share of young queens lost in the unit each day, apart from flights",
    (0.002, 0, 0.005),
    Unit.SHARE,
    Evidence.OUR_RULE,
    note="no rate was found; small enough that cells placed still give the planning share",
)
QUEEN_MISSED = Constant(
    "share of looks that miss a young queen who is there",
    (0.3, 0.1, 0.5),
    Unit.SHARE,
    Evidence.OUR_RULE,
    note="no measured share was found; virgins are small, quick and easily overlooked",
)
EGGS_MISSED = Constant(
    "share of looks that miss eggs that are there",
    (0.05, 0.01, 0.2),
    Unit.SHARE,
    Evidence.OUR_RULE,
    note="no measured share was found; first eggs are few and stand upright in the cells",
)


SEALED_BROOD_LOOK = in_days(
    "days from the first eggs seen on which sealed worker brood proves her",
    (9, 8, 14),
    Evidence.DERIVED,
    (read.COLOSS_MATING, read.WADE, read.CLUB_BEE_MATH),
    "worker cells are sealed 8 to 9 days after the egg; later the first of them emerge",
)
TAKE_FROM_EGGS = in_days(
    "days of laying before a queen is taken",
    (14, 7, 28),
    Evidence.DERIVED,
    (read.FRENCH_WORKSHOP, read.BREEDER_DATES, read.COLOSS_MATING),
    "4 days in one breeder's dates, 7 to 20 in a calendar, 28 in a survival trial from memory; "
    "14 days and sealed brood are asked for here",
)
WORKER_OPEN_BROOD = in_days(
    "days from a worker egg laid until its cell is sealed",
    (9, 8, 9),
    Evidence.READ,
    (read.WADE, read.CLUB_BEE_MATH),
)
LAYING_WORKERS = in_days(
    "days from the last open brood until laying workers become likely",
    (14, 14, 21),
    Evidence.DERIVED,
    (read.COLLISON,),
    "the source says about two weeks queenless; open brood holds them back too, so the count "
    "starts at the last of it; 21 from memory",
)
RELEASE_LOOK = in_days(
    "days a caged queen has been in on which to see that she is out",
    (3, 3, 5),
    Evidence.READ,
    (read.QUEEN_RELEASE, read.INTRODUCTION_SHEET),
)
RELEASE_AGAIN = in_days(
    "days after a queen was seen still caged on which she is let out",
    (1, 1, 2),
    Evidence.DERIVED,
    (read.INTRODUCTION_SHEET,),
    "day 3 to day 5 is two days",
)
LAYING_LOOK_FROM_RELEASE = in_days(
    "days from her release on which to look for a mated queen's eggs",
    (7, 7, 10),
    Evidence.FROM_MEMORY,
    note="from memory: extension advice is 7 to 10 days",
)
GIVE_UP_FROM_RELEASE = in_days(
    "days from her release after which a mated queen without eggs is given up",
    (14, 14, 21),
    Evidence.OUR_RULE,
    note="twice the time in which she is looked for; no source was found",
)


RECELL_AFTER_LOSS = in_days(
    "days from a failure found until the next cell goes in",
    (1, 0, 7),
    Evidence.DERIVED,
    (read.CAPPED_CELLS, read.FELL),
    "a unit takes a cell after 12 to 24 h queenless; after a week its own cells are far on",
)
RECELL_AFTER_TAKING = in_days(
    "days from taking a queen until the next cell goes in",
    (2, 1, 6),
    Evidence.READ,
    (read.BRUYN, read.CAPPED_CELLS, read.FELL),
    "wild cells are cut first; after 6 days no larva is young enough for new ones",
)
BOOST_WITHOUT_YOUNG_BROOD = in_days(
    "days without young brood after which a unit is given brood with its next cell",
    (14, 14, 21),
    Evidence.DERIVED,
    (read.COLLISON, read.WADE),
    "by then nearly all its brood is out and laying workers are near",
)
