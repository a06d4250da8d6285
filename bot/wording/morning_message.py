"""The morning message, and the answers to due, tomorrow and week."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date

from bot.channels.channel import Button
from bot.channels.sms.segments import fits
from bot.channels.traits import SMS, traits_of
from bot.wording.check_names import CHECK_WORDS
from bot.wording.days_and_numbers import day_words, full_day
from bot.wording.groups import Detail, Group, YardDay, groups, is_late
from bot.wording.message import Message, page, pages
from bot.wording.place_names import place_words
from bot.wording.plain_letters import to_gsm7
from bot.wording.yard_lines import YardLine, due_words, yard_lines
from scheduling.check_kinds import UPKEEP, CheckKind
from scheduling.checks.check import Check
from scheduling.places import Place, UnitName

_BUTTON_ORDER = tuple(CHECK_WORDS)
_MOST_BYTES = 48
"""Of a button's text. Telegram allows 64; the rest is for the name of a crew before it."""


def example(yard_days: Sequence[YardDay], day: date) -> str:
    """One reply that fits what is due: ``4a eggs, 4c no eggs``; or nothing.

    A look for the queen rather than food or a trap, since more can be answered to it.
    """
    fitting = [
        (group.kind in UPKEEP, yard_day.yard if len(yard_days) > 1 else "", group)
        for yard_day in yard_days
        for group in groups(yard_day, day, Detail.BARE)
        if group.replies and _units(group)
    ]
    if not fitting:
        return ""
    _, yard, group = min(fitting, key=lambda item: item[0])
    return to_gsm7(f"{yard} {_outcome_words(group.replies, _units(group))}".strip())


def _units(group: Group) -> list[UnitName]:
    return [place.unit for place in group.places if place.unit is not None]


def _outcome_words(outcomes: Sequence[str], units: Sequence[UnitName]) -> str:
    if len(units) == 1 or len(outcomes) == 1:
        return outcomes[0].format(units[0])
    return f"{outcomes[0].format(units[0])}, {outcomes[1].format(units[-1])}"


def buttons(yard_days: Sequence[YardDay], day: date) -> tuple[tuple[Button, ...], ...]:
    """A row of outcomes for each thing to do, the commonest first; long ones in several rows."""
    found = [
        (_BUTTON_ORDER.index(group.kind), group, yard_day)
        for yard_day in yard_days
        for group in _all_on_time(groups(yard_day, day, Detail.BARE))
        if group.replies
    ]
    in_order = sorted(found, key=lambda item: item[0])
    several = len(yard_days) > 1
    return tuple(
        row
        for _, group, yard_day in in_order
        for row in _rows(group, group.places, yard_day.yard if several else "", yard_day.units)
    )


def _all_on_time(found: Iterable[Group]) -> list[Group]:
    """Late and other places of one check in one group: the answer is the same."""
    merged: dict[tuple[CheckKind, tuple[str, ...]], tuple[Place, ...]] = {}
    for group in found:
        same = (group.kind, group.replies)
        merged[same] = merged.get(same, ()) + group.places
    return [
        Group(kind, "", "", late=False, places=places, replies=replies)
        for (kind, replies), places in merged.items()
    ]


def _rows(
    group: Group, places: tuple[Place, ...], yard: str, units: tuple[UnitName, ...]
) -> list[tuple[Button, ...]]:
    """Word the buttons of places; what is too long for a button in two rows or more."""
    named = f"{yard} {place_words(places, units)}".strip()
    row = tuple(Button(text, text) for text in (reply.format(named) for reply in group.replies))
    if all(len(button.text.encode()) <= _MOST_BYTES for button in row):
        return [row]
    if len(places) == 1:
        return []
    half = len(places) // 2
    first, rest = (_rows(group, part, yard, units) for part in (places[:half], places[half:]))
    return [*first, *rest]


FEW_SEGMENTS, SMS_SEGMENTS = 2, SMS.most_segments
"""Room for a message: a short day's morning; the most by SMS, where each costs; by chat."""

Coming = Callable[[], Check | None]
"""Looks up what is due next, where nothing is now; else nobody asks."""

FEW_UNITS = 12
"""Up to this many units a morning never takes more than few segments."""


def room_on(channel: str) -> int:
    """How many segments a message may take on a channel."""
    return traits_of(channel).most_segments


def morning_message(
    yard_days: Iterable[YardDay], day: date, most: int = SMS_SEGMENTS, before: str = ""
) -> Message | None:
    """Say the day's work, late first; None when nothing is due.

    ``before`` is said first, on a line of its own.

    Yards with something late come first, otherwise in the order given. Reasons are left out one
    step at a time when ``most`` segments are too few; what still does not fit comes on ``more``.
    """
    visited = _worth_a_visit(yard_days, day)
    if not visited:
        return None
    reply = example(visited, day)
    tail = f'Reply like "{reply}"\nMore: due' if reply else "More: due"
    places = {check.place for each in visited for check in (*each.due, *each.rests)}
    limit = FEW_SEGMENTS if len(places) <= FEW_UNITS else most
    title = f"{before}\n{full_day(day)}" if before else full_day(day)
    parts = _fitted(title, visited, day, tail, limit)
    return Message(parts, buttons(visited, day), places=_only_group(visited, day))


def due_message(
    yard_days: Iterable[YardDay],
    day: date,
    coming: Coming = lambda: None,
    most: int = SMS_SEGMENTS,
) -> Message:
    """Answer ``due_message``: the same work, or when the next thing (``coming``) is due."""
    yards = tuple(yard_days)
    taken = [yard_day for yard_day in yards if yard_day.due and yard_day.taken_by is not None]
    waiting = [each for each in yards if each.waiting and not each.due and not each.taken_by]
    visited = [*_worth_a_visit(yards, day), *waiting, *taken]
    visited = list({each.yard: each for each in visited}.values())
    if not visited:
        return Message((to_gsm7(f"Nothing due today.{_next_words(coming(), day)}"),))
    parts = _fitted(f"Due {full_day(day)}", visited, day, "", most)
    return Message(parts, buttons(visited, day), places=_only_group(visited, day))


def _only_group(visited: Sequence[YardDay], day: date) -> tuple[Place, ...]:
    """The units of the one thing that is to be done; none where there are several things."""
    found = [group for each in visited for group in _all_on_time(groups(each, day, Detail.BARE))]
    return found[0].places if len(found) == 1 else ()


def tomorrow_message(
    yard_days: Iterable[YardDay],
    day: date,
    coming: Coming = lambda: None,
    most: int = SMS_SEGMENTS,
) -> Message:
    """Answer ``tomorrow_message``; ``day`` is tomorrow's date."""
    visited = _worth_a_visit(yard_days, day)
    if not visited:
        return Message((to_gsm7(f"Nothing due tomorrow.{_next_words(coming(), day)}"),))
    return Message(_fitted(f"Tomorrow {full_day(day)}", visited, day, "", most))


def _worth_a_visit(yard_days: Iterable[YardDay], day: date) -> list[YardDay]:
    visited = [each for each in yard_days if _tells(each, day) and each.taken_by is None]
    return sorted(visited, key=lambda each: not any(is_late(check, day) for check in each.due))


def _tells(yard_day: YardDay, day: date) -> bool:
    """Tell whether anything is due, or was to be done today and must wait for the weather."""
    return bool(yard_day.due) or any(item.check.best == day for item in yard_day.waiting)


def _fitted(
    title: str, visited: Sequence[YardDay], day: date, tail: str, limit: int
) -> tuple[str, ...]:
    """Say as much as goes into ``limit`` segments, the rest by ``more``."""
    least = _lines(visited, day, Detail.LEAST)
    if not fits(page(title, least, tail), limit):
        return pages(title, least, tail, limit)
    pages_of_one = (page(title, _lines(visited, day, detail), tail) for detail in Detail)
    return (next(text for text in pages_of_one if fits(text, limit)),)


def _lines(visited: Sequence[YardDay], day: date, detail: Detail) -> list[YardLine]:
    return [line for yard_day in visited for line in yard_lines(yard_day, day, detail)]


def _next_words(coming: Check | None, day: date) -> str:
    if coming is None or coming.best is None:
        return ""
    words = due_words([coming], (), coming.place.yard, day)
    return f" Next: {coming.place.yard}, {words}, {day_words(coming.best, day)}."


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
    visits = [
        line for day in sorted(days) for line in _week_lines(full_day(day), days[day], yards, day)
    ]
    lost = _week_lines("no day left for", no_day, yards, min(days, default=date.min))
    wait = _week_lines("Can wait" if visits or lost else "can wait", waiting, yards, date.min)
    if not (lost or visits or wait):
        return Message(("Nothing due this week.",))
    title = "This week" if visits or lost else "Nothing due this week"
    return Message(pages(title, [*lost, *visits, *wait], "", most))


def _week_lines(head: str, checks: Iterable[Check], yards: Yards, day: date) -> list[YardLine]:
    by_yard: dict[str, list[Check]] = {}
    for check in checks:
        by_yard.setdefault(check.place.yard, []).append(check)
    told = {
        yard: groups(YardDay(yard, tuple(found)), day, Detail.BARE)
        for yard, found in by_yard.items()
    }
    late_first = sorted(told, key=lambda yard: (not any(group.late for group in told[yard]), yard))
    return [_week_line(head, yard, told[yard], yards.get(yard, ())) for yard in late_first]


def _week_line(head: str, yard: str, said: Sequence[Group], units: Sequence[UnitName]) -> YardLine:
    words = "; ".join(_group_words(group, units) for group in said)
    places = tuple(place for group in said for place in group.places)
    return YardLine(head, f"{yard}: {words}", places)


def _group_words(group: Group, units: Sequence[UnitName]) -> str:
    late = "late: " if group.late else ""
    return f"{late}{group.label} {place_words(group.places, units)}"
