"""Numbers beyond which a reader asks rather than records: typos, not trade rules."""

OLDEST_CELL_DAYS = 14.0
"""A cell's age since the graft; by then any queen is out."""
OLDEST_CELL_EGG_DAYS = 18.0
OLDEST_VIRGIN_DAYS = 40.0
OLDEST_LARVA_HOURS = 96.0
MOST_GRAFTED = 1000
MOST_PLANNED_QUEENS = 2000
MOST_SYRUP_LITRES = 12.0
"""In one unit at one time."""
MOST_FONDANT_KG = 8.0
MOST_FRAMES = 20.0
MOST_BEETLES = 2000
MOST_SHAKES = 20.0
LONGEST_PUT_OFF_DAYS = 60
MOST_BOXES = 500

LONGEST_MINUTES = 12 * 60
"""How long a message may be let arrive before the next channel is tried."""
