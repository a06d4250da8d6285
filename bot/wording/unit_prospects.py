"""What is ahead of a unit: the odds of a queen that does not lay yet, and its bees."""

from datetime import date

from bot.wording.days_and_numbers import day_count, day_words
from scheduling.checks.colonies import BeesAhead
from scheduling.checks.laying import too_late_to_mate_well
from scheduling.checks.queen_dates import QueenDates
from scheduling.colony.bees_enough import AnotherRound, LowPoint
from scheduling.walk.forecast import QueenForecast

_OF = 10
"""Chances are told as so many in ten: they are known no closer."""


def queen_odds_words(queen: QueenDates, look_again: str = "") -> str:
    """Say ``no eggs at day 13, 5 days no flying weather: 7 in 10 she still lays, look again Thu``.

    The day is her age at the look. Nothing is said before she was due to lay. Of one looked at so
    late that fewer of her age mate well, that is said too.
    """
    looked, forecast, emerged = queen.last_look, queen.forecast, queen.state.emergence_due
    if looked is None or forecast is None or emerged is None:
        return ""
    seen = f"no eggs at day {(looked - emerged).days}"
    late = "fewer mate well so late" if too_late_to_mate_well(queen.state, looked) else ""
    then = ", ".join(part for part in (_chance(forecast), late, _again(look_again)) if part)
    return f"{', '.join([seen, *_weather(forecast, looked)])}: {then}"


def _again(day: str) -> str:
    return f"look again {day}" if day else ""


def _weather(forecast: QueenForecast, looked: date) -> list[str]:
    days = forecast.days_without_flying(looked)
    return [f"{day_count(days)} no flying weather"] if days else []


def _chance(forecast: QueenForecast) -> str:
    in_ten = round(_OF * forecast.still_lays)
    if in_ten == 0:
        return "hardly a chance she still lays"
    if in_ten == _OF:
        return "almost sure she still lays"
    return f"{in_ten} in {_OF} she still lays"


_ROUND = {
    AnotherRound.CELL: "worth another cell",
    AnotherRound.CELL_AND_BROOD: "worth another cell with a frame of brood",
    AnotherRound.COMBINE: "not worth another round, combine",
}

_NEAREST = 50
"""Bees are told to so many: they are known no closer."""


def bees_words(ahead: BeesAhead | None, today: date) -> str:
    """Say ``fewest about 900 Fri 4 Jun, too few from Wed, give brood by today``; nothing for None.

    A low point that is past is not told.
    """
    if ahead is None:
        return ""
    said = [_fewest(ahead.low, today), _brood(ahead, today), _workers(ahead, today)]
    if ahead.another_round is not None:
        said.append(_ROUND[ahead.another_round])
    return ", ".join(part for part in said if part)


def _fewest(low: LowPoint | None, today: date) -> str:
    if low is None or low.on < today:
        return ""
    return f"fewest about {round(low.bees / _NEAREST) * _NEAREST} {day_words(low.on, today)}"


def _brood(ahead: BeesAhead, today: date) -> str:
    if ahead.too_few_from is None or ahead.brood_by is None:
        return ""
    since = "since" if ahead.too_few_from < today else "from"
    few = f"too few {since} {day_words(ahead.too_few_from, today)}"
    return f"{few}, give brood by {day_words(max(ahead.brood_by, today), today)}"


def _workers(ahead: BeesAhead, today: date) -> str:
    likely = ahead.laying_workers_from
    if likely is None:
        return ""
    since = "since" if likely < today else "from"
    return f"laying workers likely {since} {day_words(likely, today)}"
