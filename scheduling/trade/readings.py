"""Readings outside these limits are faults of an instrument, not weather."""

from scheduling.trade.constant import Constant, Evidence, Unit

COLDEST_READING = Constant(
    "air temperature below which a reading is a fault",
    -70,
    -90,
    -60,
    Unit.CELSIUS,
    Evidence.FROM_MEMORY,
    note="from memory: the record of the open air, with some room",
)
HOTTEST_READING = Constant(
    "air temperature above which a reading is a fault",
    60,
    57,
    65,
    Unit.CELSIUS,
    Evidence.FROM_MEMORY,
    note="from memory: the record of the open air, with some room",
)
WINDIEST_READING = Constant(
    "mean wind above which a reading is a fault",
    200,
    150,
    300,
    Unit.KILOMETRES_PER_HOUR,
    Evidence.FROM_MEMORY,
    note="from memory: the mean wind of the strongest storms, short of tornadoes",
)
WETTEST_READING = Constant(
    "rain above which a reading is a fault",
    310,
    250,
    400,
    Unit.MILLIMETRES_PER_HOUR,
    Evidence.FROM_MEMORY,
    note="from memory: the record of the open air, with some room",
)
