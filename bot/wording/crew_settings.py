"""Answers about what a crew settled on: its odds, and the days on which it goes out."""

from collections.abc import Set

from bot.wording.days import weekday_name
from bot.wording.quantities import percent
from scheduling.trade import table
from scheduling.walk.odds import (
    BOLDEST,
    LATEST_GIVEN_UP,
    MOST_CAREFUL,
    SOONEST_GIVEN_UP,
    USUAL,
    Odds,
)
from scheduling.walk.shift import Shift


def odds_words(odds: Odds, shift: Shift) -> str:
    """Say at which chances the crew looks and gives up, and what days that makes."""
    look = table.LAYING_LOOK_FROM_EMERGENCE.days + shift.best
    give_up = table.GIVE_UP_FROM_EMERGENCE.days + shift.give_up
    ending = "" if odds == USUAL else "\nusual odds goes back."
    return (
        f"Look for eggs at {percent(odds.best)} sure: in fair weather day {look} "
        "after she is out.\n"
        f"Give up under a {percent(odds.give_up)} chance that she still lays: "
        f"from day {give_up}.{ending}"
    )


def look_refused() -> str:
    """Refuse a chance at which nobody should look."""
    return f"Say {percent(BOLDEST)} to {percent(MOST_CAREFUL)}, as in: look at 80 percent"


def give_up_refused() -> str:
    """Refuse a chance at which nobody should give a queen up."""
    limits = f"{percent(LATEST_GIVEN_UP)} to {percent(SOONEST_GIVEN_UP)}"
    return f"Say {limits}, as in: give up at 10 percent"


def days_words(weekdays: Set[int]) -> str:
    """Say on which days the crew goes out."""
    if len(weekdays) == 7:
        return "You go out any day. For less, as in: days sat sun, or: not on monday"
    names = " ".join(weekday_name(day) for day in sorted(weekdays))
    return f"You go out {names}. week plans for these days; any day: days all"


def no_day_left() -> str:
    """Refuse a week without a day to go out."""
    return "No day would be left. Nothing changed. Say one, as in: days sat sun"
