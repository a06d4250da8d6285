"""From a lost or taken queen to the next cell."""

from scheduling.trade import sources as read
from scheduling.trade.constant import Constant, Evidence, Unit

RECELL_AFTER_LOSS = Constant(
    "days from a failure found until the next cell goes in",
    1,
    0,
    7,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.CAPPED_CELLS, read.FELL),
    "a unit takes a cell after 12 to 24 h queenless; after a week its own cells are far on",
)
RECELL_AFTER_TAKING = Constant(
    "days from taking a queen until the next cell goes in",
    2,
    1,
    6,
    Unit.DAYS,
    Evidence.READ,
    (read.BRUYN, read.CAPPED_CELLS, read.FELL),
    "wild cells are cut first; after 6 days no larva is young enough for new ones",
)
BOOST_WITHOUT_YOUNG_BROOD = Constant(
    "days without young brood after which a unit is given brood with its next cell",
    14,
    14,
    21,
    Unit.DAYS,
    Evidence.DERIVED,
    (read.COLLISON, read.WADE),
    "by then nearly all its brood is out and laying workers are near",
)
