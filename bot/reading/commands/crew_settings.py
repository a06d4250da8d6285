"""What a crew settles on: ``look at 70 percent``, ``give up at 5 percent``, ``days sat sun``."""

import re

from bot.reading.lexicon.measures import WEEKDAYS
from bot.reading.result import Command, CommandName, Question, QuestionKind, Reading
from bot.reading.situation import Situation

_CHANCE = (
    r"(?P<number>\d{1,3}(?:\.\d+)?) ?(?:(?P<percent>%|percent|per cent|in (?:a )?100)"
    r"|(?:in|of|out of) (?:10|ten)\b)(?: sure)?"
)
_LOOK = re.compile(
    rf"(?:please )?(?:look|open)(?: for eggs)? (?:only )?(?:at|from|when) {_CHANCE}", re.IGNORECASE
)
_GIVE_UP = re.compile(
    rf"(?:please )?give (?:her |them |queens? )?up (?:at|under|below) {_CHANCE}", re.IGNORECASE
)
_ODDS = re.compile(r"(?:the |my |our )?(?P<usual>usual )?odds\??", re.IGNORECASE)
_DAYS = re.compile(
    r"(?:(?:(?:my|our) )?days:?(?: are)?|(?:we |i )?(?:only )?(?:drive|go out))(?: only)?(?: on)?"
    r"(?: (?P<list>.+))?",
    re.IGNORECASE,
)
_NOT = re.compile(
    r"(?:(?:we |i )?(?:never|cannot|can't|can not|do not|don't) (?:go |drive )?(?:out )?"
    r"|(?:days )?not |no drive )(?:on )?(?P<list>.+)",
    re.IGNORECASE,
)
_PARTS = re.compile(r"[ ,]+(?:and |& ?|or )?|(?<=\w)&")
_RUN = re.compile(r"(?P<first>[a-z]+) ?(?:-|to|thru|through) ?(?P<last>[a-z]+)")
_TOGETHER = {
    "every day": range(7), "any day": range(7), "all": range(7), "daily": range(7),
    "all days": range(7), "all week": range(7), "any": range(7),
    "weekends": (5, 6), "the weekend": (5, 6), "weekend": (5, 6), "weekdays": range(5),
}  # fmt: skip


def crew_setting_of(text: str, situation: Situation) -> Reading | None:
    """Read what a crew settles on; a chance that is none gives a question."""
    del situation
    said = text.lower().strip()
    if found := _LOOK.fullmatch(said):
        return _chance(CommandName.LOOK_AT, found, "look at 80 percent")
    if found := _GIVE_UP.fullmatch(said):
        return _chance(CommandName.GIVE_UP_AT, found, "give up at 10 percent")
    if found := _ODDS.fullmatch(said):
        word = "usual" if found["usual"] else None
        return Reading(command=Command(CommandName.ODDS, word=word))
    return _days(said)


def _chance(name: CommandName, found: re.Match[str], example: str) -> Reading:
    chance = float(found["number"]) / (100 if found["percent"] else 10)
    if not 0 < chance < 1:
        question = Question(QuestionKind.BAD_NUMBER, found.group(), options=(example,))
        return Reading(questions=(question,))
    return Reading(command=Command(name, chance=chance))


def _days(said: str) -> Reading | None:
    found = _DAYS.fullmatch(said)
    if found is not None and found["list"] is None:
        return Reading(command=Command(CommandName.DAYS)) if said.endswith("days") else None
    denied = _NOT.fullmatch(said)
    listed = denied or found
    weekdays = _weekdays(listed["list"]) if listed is not None else None
    if weekdays is None:
        return None
    return Reading(command=Command(CommandName.DAYS, weekdays=weekdays, but=denied is not None))


def _weekdays(listed: str) -> frozenset[int] | None:
    """Give the weekdays of "sat and sun", "mon-fri" or "weekends", None if a word is none."""
    if listed in _TOGETHER:
        return frozenset(_TOGETHER[listed])
    joined = _RUN.sub(r"\g<first>-\g<last>", listed)
    parts = [_run(part) for part in _PARTS.split(joined)]
    days = [day for part in parts if part is not None for day in part]
    return frozenset(days) if days and None not in parts else None


def _run(part: str) -> tuple[int, ...] | None:
    ends = [_weekday(end) for end in part.split("-")]
    first, last = ends[0], ends[-1]
    if len(ends) > 2 or first is None or last is None:
        return None
    return tuple((first + ahead) % 7 for ahead in range((last - first) % 7 + 1))


def _weekday(word: str) -> int | None:
    return WEEKDAYS.get(word, WEEKDAYS.get(word.removesuffix("s")))
