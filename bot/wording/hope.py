"""How likely a queen that does not lay yet still will, in a beekeeper's words."""

from datetime import date

from bot.wording.days import day_count
from scheduling.checks.flying import too_late_to_mate_well
from scheduling.checks.laying import last_look
from scheduling.units import UnitState
from scheduling.walk.outlook import Outlook

_OF = 10
"""Chances are told as so many in ten: they are known no closer."""


def hope_words(state: UnitState, look_again: str = "") -> str:
    """Say ``no eggs at day 13, 5 days no flying weather: 7 in 10 she still lays, look again Thu``.

    The day is her age at the look. Nothing is said before she was due to lay. Of one looked at so
    late that fewer of her age mate well, that is said too.
    """
    looked, outlook, emerged = last_look(state), state.outlook, state.emergence_due
    if looked is None or outlook is None or emerged is None:
        return ""
    seen = f"no eggs at day {(looked - emerged).days}"
    late = "fewer mate well so late" if too_late_to_mate_well(state, looked) else ""
    then = ", ".join(part for part in (_chance(outlook), late, _again(look_again)) if part)
    return f"{', '.join([seen, *_weather(outlook, looked)])}: {then}"


def _again(day: str) -> str:
    return f"look again {day}" if day else ""


def _weather(outlook: Outlook, looked: date) -> list[str]:
    days = outlook.days_without_flying(looked)
    return [f"{day_count(days)} no flying weather"] if days else []


def _chance(outlook: Outlook) -> str:
    in_ten = round(_OF * outlook.still_lays)
    if in_ten == 0:
        return "hardly a chance she still lays"
    if in_ten == _OF:
        return "almost sure she still lays"
    return f"{in_ten} in {_OF} she still lays"
