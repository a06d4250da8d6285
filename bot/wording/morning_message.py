"""The morning message, and what ``due_message`` and ``tomorrow_message`` answer."""

from collections.abc import Callable, Iterable, Sequence
from datetime import date

from bot.channels.known_channels import SMS, traits_of
from bot.channels.sms.segments import fits
from bot.wording.day_names import day_words, full_day
from bot.wording.example_replies import buttons, example
from bot.wording.groups import Detail, YardDay, is_late
from bot.wording.message import Message, page, pages
from bot.wording.plain_letters import to_gsm7
from bot.wording.yard_lines import YardLine, due_words, yard_lines
from scheduling.checks.check import Check

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
    limit = FEW_SEGMENTS if _places(visited) <= FEW_UNITS else most
    title = f"{before}\n{full_day(day)}" if before else full_day(day)
    parts = _fitted(title, visited, day, tail, limit)
    return Message(parts, buttons(visited, day))


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
    return Message(parts, buttons(visited, day))


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


def _places(visited: Sequence[YardDay]) -> int:
    return len({check.place for each in visited for check in (*each.due, *each.rests)})


def _next_words(coming: Check | None, day: date) -> str:
    if coming is None or coming.best is None:
        return ""
    words = due_words([coming], (), coming.place.yard, day)
    return f" Next: {coming.place.yard}, {words}, {day_words(coming.best, day)}."
