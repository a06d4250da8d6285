"""Days found among the words of a text: "monday", "5/10", "2 days ago", "the 10th"."""

from collections.abc import Sequence

from bot.reading.lexicon.measures import MONTHS, NUMBERS, WEEKDAYS
from bot.reading.spoken import WEEK as _WEEK
from bot.reading.spoken import Spoken
from bot.reading.words import Form, Word


def spoken_at(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    """Read a day at ``at``; give it and the index after it."""
    if at < len(words) and not _may_begin(words[at]):
        return None
    for form in _FORMS:
        found = form(words, at)
        if found is not None:
            return found
    return None


def _text(words: Sequence[Word], at: int) -> str:
    return words[at].text if 0 <= at < len(words) else ""


def _may_begin(word: Word) -> bool:
    """Tell whether a day may begin with a word: most words of a text are tried in vain."""
    if word.form is Form.WORD:
        return word.text in _BEGINNINGS
    return word.form in _DATED


_RELATIVE = {"today": 0, "yesterday": 1, "tomorrow": -1, "tonight": 0}


_DATED = (Form.NUMBER, Form.ORDINAL, Form.ISO, Form.SLASH)
_BEGINNINGS = frozenset(
    {
        *("a", "one", "the", "this", "last", "past", "on", "in", "day"),
        *(*_RELATIVE, *WEEKDAYS, *MONTHS, *NUMBERS),
    }
)


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
    skipped = _text(words, at) in ("last", "on", "this", "past")
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
    start = at + (_text(words, at) == "the")
    day = _day_number(words, start)
    after = start + 1 + (_text(words, start + 1) == "of")
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


def _ordinal(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    """Read "the 10th": only an ordinal is a day without its month."""
    start = at + (_text(words, at) == "the")
    if start >= len(words) or words[start].form is not Form.ORDINAL:
        return None
    number = _day_number(words, start)
    return None if number is None else (Spoken(month_day=number), start + 1)


def _in_days(words: Sequence[Word], at: int) -> tuple[Spoken, int] | None:
    """Read "in 2 days", "in a week"."""
    if _text(words, at) != "in":
        return None
    count = 1 if _text(words, at + 1) in ("a", "another") else _whole(words, at + 1)
    unit = {"day": 1, "days": 1, "week": _WEEK, "weeks": _WEEK}.get(_text(words, at + 2))
    return None if not count or unit is None else (Spoken(ago=-count * unit), at + 3)


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
