"""Days as people say them, and what they mean seen from today."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from bot.reading.lexicon.measures import MONTHS, NUMBERS, WEEKDAYS
from bot.reading.words import Form, Word

NEAR = timedelta(days=60)
"""How far a day written as 5/10 may lie away and still be meant."""
FAR = timedelta(days=300)
"""A finding older than this is asked about."""
_WEEK = 7


@dataclass(frozen=True)
class Spoken:
    """A day as it was said.

    One of the fields is set: ``ago`` days back from today, a ``weekday`` (Monday is 0), or one or
    two ``month_days``, with the ``year`` if it was said.
    """

    ago: int | None = None
    weekday: int | None = None
    month_days: tuple[tuple[int, int], ...] = ()
    year: int | None = None

    def behind(self, today: date) -> date | None:
        """Give the day of something that happened; None if it may be another."""
        if self.ago is not None:
            return today - timedelta(days=self.ago) if self.ago >= 0 else None
        if self.weekday is not None:
            back = (today.weekday() - self.weekday) % _WEEK
            return today - timedelta(days=back) if back else None
        meant = [day for day in self._days(today) if today - FAR <= day <= today]
        return _only(meant, today)

    def ahead(self, today: date) -> date | None:
        """Give the day that something is put off to; None if it may be another."""
        if self.ago is not None:
            return today - timedelta(days=self.ago) if self.ago < 0 else None
        if self.weekday is not None:
            return today + timedelta(days=(self.weekday - today.weekday() - 1) % _WEEK + 1)
        meant = [day for day in self._days(today) if today < day <= today + FAR]
        return _only(meant, today)

    def _days(self, today: date) -> list[date]:
        """Give every reading of a month and day, each in the year nearest to today."""
        days = {
            day for month, number in self.month_days for day in self._dated(month, number, today)
        }
        return sorted(days)

    def _dated(self, month: int, number: int, today: date) -> list[date]:
        years = [self.year] if self.year else [today.year - 1, today.year, today.year + 1]
        days = [day for year in years if (day := _date(year, month, number))]
        return sorted(days, key=lambda day: abs(day - today))[:1]


def _only(days: list[date], today: date) -> date | None:
    if len(days) > 1:
        days = [day for day in days if abs(day - today) <= NEAR]
    return days[0] if len(days) == 1 else None


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def spoken_at(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    """Read a day at ``at``; give it and the index after it."""
    for form in (_relative, _weekday, _days_ago, _iso, _slash, _day_month, _month_day):
        found = form(words, at)
        if found is not None:
            return found
    return None


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""


_RELATIVE = {"today": 0, "yesterday": 1, "tomorrow": -1, "tonight": 0}


def _relative(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    said = [_text(words, at + step) for step in range(4)]
    if said[1:4] == ["day", "before", "yesterday"] and said[0] == "the":
        return Spoken(ago=2), at + 4
    if said[:3] == ["day", "before", "yesterday"]:
        return Spoken(ago=2), at + 3
    if said[0] == "this" and said[1] in ("morning", "afternoon", "evening"):
        return Spoken(ago=0), at + 2
    if said[:2] == ["last", "night"]:
        return Spoken(ago=1), at + 2
    if said[0] in _RELATIVE:
        part_of_day = said[1] in ("morning", "afternoon", "evening")
        return Spoken(ago=_RELATIVE[said[0]]), at + 1 + part_of_day
    return None


def _weekday(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    skipped = _text(words, at) in ("last", "on", "this")
    day = WEEKDAYS.get(_text(words, at + skipped))
    if day is None:
        return None
    after = at + skipped + 1
    return Spoken(weekday=day), after + (_text(words, after) in ("morning", "afternoon", "evening"))


def _days_ago(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    count = _whole(words, at) if _text(words, at) not in ("a", "one") else 1
    unit = {"day": 1, "days": 1, "week": _WEEK, "weeks": _WEEK}.get(_text(words, at + 1))
    if count is None or unit is None or _text(words, at + 2) not in ("ago", "back"):
        return None
    return Spoken(ago=count * unit), at + 3


def _whole(words: Sequence[Word], at: int) -> int | None:
    text = _text(words, at)
    if text.isdigit():
        return int(text)
    return int(NUMBERS[text]) if text in NUMBERS else None


def _iso(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    if words[at].form is not Form.ISO:
        return None
    year, month, day = map(int, words[at].text.split("-"))
    return Spoken(month_days=((month, day),), year=year), at + 1


def _slash(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    if words[at].form is not Form.SLASH:
        return None
    first, second, *rest = map(int, words[at].text.split("/"))
    year = rest[0] + (2000 if rest[0] < 100 else 0) if rest else None
    return Spoken(month_days=tuple({(first, second), (second, first)}), year=year), at + 1


def _day_number(words: Sequence[Word], at: int) -> int | None:
    text = _text(words, at)
    number = text[:-2] if at < len(words) and words[at].form is Form.ORDINAL else text
    return int(number) if number.isdigit() and 1 <= int(number) <= 31 else None


def _day_month(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    day = _day_number(words, at)
    after = at + 1 + (_text(words, at + 1) == "of")
    month = MONTHS.get(_text(words, after))
    if day is None or month is None:
        return None
    return _with_year(words, after + 1, month, day)


def _month_day(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    month = MONTHS.get(_text(words, at))
    after = at + 1 + (_text(words, at + 1) == "the")
    day = _day_number(words, after)
    if day is None or month is None:
        return None
    return _with_year(words, after + 1, month, day)


def _with_year(words: Sequence[Word], at: int, month: int, day: int) -> tuple[Spoken, int]:
    after = at + (_text(words, at) == "," and _is_year(_text(words, at + 1)))
    if _is_year(_text(words, after)):
        return Spoken(month_days=((month, day),), year=int(_text(words, after))), after + 1
    return Spoken(month_days=((month, day),)), at


def _is_year(text: str) -> bool:
    return len(text) == 4 and text.startswith("20") and text.isdigit()
