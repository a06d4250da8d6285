"""What ``week_message`` answers: which yard on which day, what is too late, and what can wait."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from bot.wording.days_and_numbers import full_day
from bot.wording.groups import Detail, Group, YardDay, groups
from bot.wording.message import Message, pages
from bot.wording.morning_message import SMS_SEGMENTS
from bot.wording.place_names import place_words
from bot.wording.yard_lines import YardLine
from scheduling.checks.check import Check
from scheduling.places import UnitName

Yards = Mapping[str, Sequence[UnitName]]


def week_message(
    days: Mapping[date, Sequence[Check]],
    yards: Yards,
    most: int = SMS_SEGMENTS,
    *,
    no_day: Sequence[Check] = (),
    waiting: Sequence[Check] = (),
) -> Message:
    """A line for each yard and day on which it is visited, what is late first.

    ``no_day`` are checks for which no day is left, told before all else; ``waiting`` those that
    need no drive this week. What does not fit into ``most`` segments comes on ``more``.
    """
    visits = [line for day in sorted(days) for line in _lines(full_day(day), days[day], yards, day)]
    lost = _lines("no day left for", no_day, yards, min(days, default=date.min))
    wait = _lines("Can wait" if visits or lost else "can wait", waiting, yards, date.min)
    if not (lost or visits or wait):
        return Message(("Nothing due this week.",))
    title = "This week" if visits or lost else "Nothing due this week"
    return Message(pages(title, [*lost, *visits, *wait], "", most))


def _lines(head: str, checks: Iterable[Check], yards: Yards, day: date) -> list[YardLine]:
    by_yard: dict[str, list[Check]] = {}
    for check in checks:
        by_yard.setdefault(check.place.yard, []).append(check)
    told = {
        yard: groups(YardDay(yard, tuple(found)), day, Detail.BARE)
        for yard, found in by_yard.items()
    }
    late_first = sorted(told, key=lambda yard: (not any(group.late for group in told[yard]), yard))
    return [_line(head, yard, told[yard], yards.get(yard, ())) for yard in late_first]


def _line(head: str, yard: str, said: Sequence[Group], units: Sequence[UnitName]) -> YardLine:
    words = "; ".join(_words(group, units) for group in said)
    places = tuple(place for group in said for place in group.places)
    return YardLine(head, f"{yard}: {words}", places)


def _words(group: Group, units: Sequence[UnitName]) -> str:
    late = "late: " if group.late else ""
    return f"{late}{group.label} {place_words(group.places, units)}"
