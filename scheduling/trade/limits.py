"""Limits of what an entry may say; no rule of the trade goes by them."""

from datetime import date

from scheduling.trade.constant import Evidence, in_days

FIRST_DAY = date(2000, 1, 1)
"""The first day that an entry may speak of: a log taken over from paper is younger."""

FURTHEST_AHEAD = in_days(
    "days after today that an entry may speak of at the furthest",
    (730, 365, 730),
    Evidence.OUR_RULE,
    note="a plan for next season, and a clock that is a year behind",
)
OLDEST_WHEN_PLACED = in_days(
    "greatest age of a cell or a queen that is placed",
    (365, 40, 365),
    Evidence.OUR_RULE,
    note="beyond any virgin's or cell's; what a person types is asked about much sooner",
)
LARGEST_NUMBER = 1_000_000.0
"""No amount of an entry is greater, in whatever it is counted."""
