"""Days among the words of a text ("monday", "5/10", "2 days ago", "the 10th") and their meaning."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from bot.reading.lexicon.measures import MONTHS, NUMBERS, WEEKDAYS
from bot.reading.tokens.token import Token, TokenForm, text_at

_NEAR = timedelta(days=60)
"""How far a day written as 5/10 may lie away and still be meant."""
_FAR = timedelta(days=300)
"""A finding older than this is asked about."""
_WEEK = 7
_LONGEST_MONTH = 31


@dataclass(frozen=True)
class SpokenDay:
    """A day as it was said.

    One of the fields is set: ``ago`` days back from today, a ``weekday`` (Monday is 0), or one or
    two ``month_days``, with the ``year`` if it was said, or only the ``month_day`` ("the 10th").
    """

    ago: int | None = None
    weekday: int | None = None
    month_days: tuple[tuple[int, int], ...] = ()
    year: int | None = None
    month_day: int | None = None

    @property
    def lies_ahead(self) -> bool:
        """Whether the words alone may mean a day to come: "friday" may, "yesterday" not."""
        return self.ago is None or self.ago < 0

    def behind(self, today: date) -> date | None:
        """Give the day of something that happened; None if it may be another."""
        if self.ago is not None:
            return _days_before(today, self.ago) if self.ago >= 0 else None
        if self.weekday is not None:
            back = (today.weekday() - self.weekday) % _WEEK
            return today - timedelta(days=back) if back else None
        if self.month_day is not None:
            return _nearest(today, -1, self.month_day)
        meant = [day for day in self._days(today) if today - _FAR <= day <= today]
        return _only(meant, today)

    def ahead(self, today: date) -> date | None:
        """Give the day that something is put off to; None if it may be another."""
        if self.ago is not None:
            return _days_before(today, self.ago) if self.ago < 0 else None
        if self.weekday is not None:
            return today + timedelta(days=(self.weekday - today.weekday() - 1) % _WEEK + 1)
        if self.month_day is not None:
            return _nearest(today + timedelta(days=1), 1, self.month_day)
        meant = [day for day in self._days(today) if today < day <= today + _FAR]
        return _only(meant, today)

    def wanted(self, today: date) -> date | None:
        """Give the day by which something is wanted, which may lie a year ahead."""
        if self.year or not self.month_days:
            return self.ahead(today)
        coming = {_next(today, month, day) for month, day in self.month_days}
        return _only(sorted(day for day in coming if day is not None), today)

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


def _days_before(today: date, ago: int) -> date | None:
    """Give the day so many days ago, or to come when negative; None for one that is too far."""
    return today - timedelta(days=ago) if abs(ago) <= _FAR.days else None


def _nearest(start: date, step: int, month_day: int) -> date | None:
    """Give the first day of that number within a month's walk from ``start``."""
    walk = (start + timedelta(days=step * away) for away in range(_LONGEST_MONTH))
    return next((day for day in walk if day.day == month_day), None)


def _next(today: date, month: int, day: int) -> date | None:
    """Give the first such day after today; None for a 29th of February that does not come soon."""
    coming = (_date(year, month, day) for year in (today.year, today.year + 1))
    return next((each for each in coming if each is not None and each > today), None)


def _only(days: list[date], today: date) -> date | None:
    if len(days) > 1:
        days = [day for day in days if abs(day - today) <= _NEAR]
    return days[0] if len(days) == 1 else None


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def spoken_day_at(tokens: Sequence[Token], at: int) -> tuple[SpokenDay, int] | None:
    """Read a day at ``at``; give it and the index after it."""
    if at < len(tokens) and not _may_begin(tokens[at]):
        return None
    for form in _FORMS:
        found = form(tokens, at)
        if found is not None:
            return found
    return None


def _may_begin(token: Token) -> bool:
    """Tell whether a day may begin with a word: most words of a text are tried in vain."""
    if token.form is TokenForm.WORD:
        return token.text in _BEGINNINGS
    return token.form in _DATED


_RELATIVE = {"today": 0, "yesterday": 1, "tomorrow": -1, "tonight": 0}
_PARTS_OF_DAY = ("morning", "afternoon", "evening")
_SPANS = {"day": 1, "days": 1, "week": _WEEK, "weeks": _WEEK}
_DATED = (TokenForm.NUMBER, TokenForm.ORDINAL, TokenForm.ISO, TokenForm.SLASH)
_BEGINNINGS = frozenset(
    {
        *("a", "one", "the", "this", "last", "past", "on", "in", "day"),
        *(*_RELATIVE, *WEEKDAYS, *MONTHS, *NUMBERS),
    }
)


def _relative(tokens: Sequence[Token], at: int) -> tuple[SpokenDay, int] | None:
    said = [text_at(tokens, at + step) for step in range(4)]
    if said[1:4] == ["day", "before", "yesterday"] and said[0] == "the":
        return SpokenDay(ago=2), at + 4
    if said[:3] == ["day", "before", "yesterday"]:
        return SpokenDay(ago=2), at + 3
    if said[0] == "this" and said[1] in _PARTS_OF_DAY:
        return SpokenDay(ago=0), at + 2
    if said[:2] == ["last", "night"]:
        return SpokenDay(ago=1), at + 2
    if said[0] in _RELATIVE:
        part_of_day = said[1] in _PARTS_OF_DAY
        return SpokenDay(ago=_RELATIVE[said[0]]), at + 1 + part_of_day
    return None


def _weekday(tokens: Sequence[Token], at: int) -> tuple[SpokenDay, int] | None:
    skipped = text_at(tokens, at) in ("last", "on", "this", "past")
    day = WEEKDAYS.get(text_at(tokens, at + skipped))
    if day is None:
        return None
    after = at + skipped + 1
    return SpokenDay(weekday=day), after + (text_at(tokens, after) in _PARTS_OF_DAY)


def _days_ago(tokens: Sequence[Token], at: int) -> tuple[SpokenDay, int] | None:
    count = _whole(tokens, at) if text_at(tokens, at) not in ("a", "one") else 1
    unit = _SPANS.get(text_at(tokens, at + 1))
    if count is None or unit is None or text_at(tokens, at + 2) not in ("ago", "back"):
        return None
    return SpokenDay(ago=count * unit), at + 3


def _whole(tokens: Sequence[Token], at: int) -> int | None:
    text = text_at(tokens, at)
    if text.isdecimal():
        return int(text)
    return int(NUMBERS[text]) if text in NUMBERS else None


def _iso(tokens: Sequence[Token], at: int) -> tuple[SpokenDay, int] | None:
    if tokens[at].form is not TokenForm.ISO:
        return None
    year, month, day = map(int, tokens[at].text.split("-"))
    return SpokenDay(month_days=((month, day),), year=year), at + 1


def _slash(tokens: Sequence[Token], at: int) -> tuple[SpokenDay, int] | None:
    if tokens[at].form is not TokenForm.SLASH:
        return None
    first, second, *rest = map(int, tokens[at].text.split("/"))
    year = rest[0] + (2000 if rest[0] < 100 else 0) if rest else None
    return SpokenDay(month_days=tuple({(first, second), (second, first)}), year=year), at + 1


def _day_number(tokens: Sequence[Token], at: int) -> int | None:
    text = text_at(tokens, at)
    number = text[:-2] if at < len(tokens) and tokens[at].form is TokenForm.ORDINAL else text
    return int(number) if number.isdecimal() and 1 <= int(number) <= 31 else None


def _day_month(tokens: Sequence[Token], at: int) -> tuple[SpokenDay, int] | None:
    start = at + (text_at(tokens, at) == "the")
    day = _day_number(tokens, start)
    after = start + 1 + (text_at(tokens, start + 1) == "of")
    month = MONTHS.get(text_at(tokens, after))
    if day is None or month is None:
        return None
    return _with_year(tokens, after + 1, month, day)


def _month_day(tokens: Sequence[Token], at: int) -> tuple[SpokenDay, int] | None:
    month = MONTHS.get(text_at(tokens, at))
    after = at + 1 + (text_at(tokens, at + 1) == "the")
    day = _day_number(tokens, after)
    if day is None or month is None:
        return None
    return _with_year(tokens, after + 1, month, day)


def _with_year(tokens: Sequence[Token], at: int, month: int, day: int) -> tuple[SpokenDay, int]:
    after = at + (text_at(tokens, at) == "," and _is_year(text_at(tokens, at + 1)))
    if _is_year(text_at(tokens, after)):
        return SpokenDay(month_days=((month, day),), year=int(text_at(tokens, after))), after + 1
    return SpokenDay(month_days=((month, day),)), at


def _is_year(text: str) -> bool:
    return len(text) == 4 and text.startswith("20") and text.isdecimal()


def _ordinal(tokens: Sequence[Token], at: int) -> tuple[SpokenDay, int] | None:
    """Read "the 10th": only an ordinal is a day without its month."""
    start = at + (text_at(tokens, at) == "the")
    if start >= len(tokens) or tokens[start].form is not TokenForm.ORDINAL:
        return None
    number = _day_number(tokens, start)
    return None if number is None else (SpokenDay(month_day=number), start + 1)


def _in_days(tokens: Sequence[Token], at: int) -> tuple[SpokenDay, int] | None:
    """Read "in 2 days", "in a week"."""
    if text_at(tokens, at) != "in":
        return None
    count = 1 if text_at(tokens, at + 1) in ("a", "another") else _whole(tokens, at + 1)
    unit = _SPANS.get(text_at(tokens, at + 2))
    return None if not count or unit is None else (SpokenDay(ago=-count * unit), at + 3)


_FORMS = (
    _relative,
    _weekday,
    _days_ago,
    _in_days,
    _iso,
    _slash,
    _day_month,
    _month_day,
    _ordinal,
)
