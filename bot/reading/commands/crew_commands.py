"""What a crew is made of, settles on and plans: ``invite``, ``join``, ``plan 12 queens``."""

import re
from datetime import date

from bot.reading.lexicon.measures import MOST_PLANNED_QUEENS, WEEKDAYS
from bot.reading.result import Command, CommandName, QuestionKind, Reading
from bot.reading.situation import Situation
from bot.reading.tokens.amounts import number_at
from bot.reading.tokens.dates import spoken_day_at
from bot.reading.tokens.token import tokenise

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
_NOT_DAYS = re.compile(
    r"(?:(?:we |i )?(?:never|cannot|can't|can not|do not|don't) (?:go |drive )?(?:out )?"
    r"|(?:days )?not |no drive )(?:on )?(?P<list>.+)",
    re.IGNORECASE,
)
_WEEKDAYS_APART = re.compile(r"[ ,]+(?:and |& ?|or )?|(?<=\w)&")
_WEEKDAY_RUN = re.compile(r"(?P<first>[a-z]+) ?(?:-|to|thru|through) ?(?P<last>[a-z]+)")
_WEEKDAYS_TOGETHER = {
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
        return Reading.asking(QuestionKind.BAD_NUMBER, found.group(), example)
    return Reading(command=Command(name, chance=chance))


def _days(said: str) -> Reading | None:
    found = _DAYS.fullmatch(said)
    if found is not None and found["list"] is None:
        return Reading(command=Command(CommandName.DAYS)) if said.endswith("days") else None
    denied = _NOT_DAYS.fullmatch(said)
    listed = denied or found
    weekdays = _weekdays(listed["list"]) if listed is not None else None
    if weekdays is None:
        return None
    return Reading(command=Command(CommandName.DAYS, weekdays=weekdays, but=denied is not None))


def _weekdays(listed: str) -> frozenset[int] | None:
    """Give the weekdays of "sat and sun", "mon-fri" or "weekends", None if a word is none."""
    if listed in _WEEKDAYS_TOGETHER:
        return frozenset(_WEEKDAYS_TOGETHER[listed])
    joined = _WEEKDAY_RUN.sub(r"\g<first>-\g<last>", listed)
    parts = [_weekday_run(part) for part in _WEEKDAYS_APART.split(joined)]
    days = [day for part in parts if part is not None for day in part]
    return frozenset(days) if days and None not in parts else None


def _weekday_run(part: str) -> tuple[int, ...] | None:
    ends = [_weekday(end) for end in part.split("-")]
    first, last = ends[0], ends[-1]
    if len(ends) > 2 or first is None or last is None:
        return None
    return tuple((first + ahead) % 7 for ahead in range((last - first) % 7 + 1))


def _weekday(word: str) -> int | None:
    return WEEKDAYS.get(word, WEEKDAYS.get(word.removesuffix("s")))


_PLAN = re.compile(
    r"(?P<plan>plan )?"
    r"(?:when (?:do|should|must|to) ?(?:i |we )?graft ?)?"
    r"(?:(?:i|we) (?:need|want|would like) |to (?:get|have) |need |want |graft )?(?:for )?"
    r"(?P<count>[a-z0-9 ]+?) (?:laying |mated |good )*queens? "
    r"(?:(?:ready|laying|mated) )?(?:by|on|before|for) (?P<day>.+)",
    re.IGNORECASE,
)

_PLANNABLE = range(1, MOST_PLANNED_QUEENS + 1)

_PLAN_WITHOUT_NUMBER = re.compile(r"(?P<asked>.+) (?:for|by|before|on) (?P<day>.+)")
_WANTED = frozenset({"plan", "graft", "queen", "queens"})
_AROUND = frozenset({
    "when", "what", "do", "should", "must", "to", "i", "we", "need", "want", "would", "like", "now",
    "get", "have", "for", "be", "a", "my", "new", "some", "laying", "mated", "good", "ready",
    "wanted", "needed",
})  # fmt: skip
"""Words that may stand beside them in such a wish, and nowhere in a report."""


def graft_plan_of(text: str, situation: Situation) -> Reading | None:
    """Read how many laying queens are wanted by which day; without a number, by which day."""
    found = _PLAN.fullmatch(text.rstrip("?"))
    if found is None:
        return _plan_without_number(text.rstrip("?"), situation)
    count = number_at(tokenise(found["count"]), 0)
    whole = count is not None and count[1] == len(tokenise(found["count"]))
    if count is None or not whole or count[0] not in _PLANNABLE:
        asked = _ask_plan(QuestionKind.BAD_NUMBER, text) if found["plan"] else None
        return _plan_without_number(text.rstrip("?"), situation) or asked
    on = _wanted_by(found["day"], situation)
    if on is None:
        return _ask_plan(QuestionKind.WHICH_DATE, text)
    return Reading(command=Command(CommandName.PLAN, count=int(count[0]), on=on))


def _plan_without_number(text: str, situation: Situation) -> Reading | None:
    found = _PLAN_WITHOUT_NUMBER.fullmatch(text.lower())
    asked = set(found["asked"].split()) if found else set()
    if found is None or not asked & _WANTED or asked - _WANTED - _AROUND:
        return None
    on = _wanted_by(found["day"], situation)
    return Reading(command=Command(CommandName.PLAN, on=on)) if on else None


def _wanted_by(said: str, situation: Situation) -> date | None:
    words = tokenise(said)
    spoken = spoken_day_at(words, 0)
    return spoken[0].wanted(situation.today) if spoken and spoken[1] == len(words) else None


def _ask_plan(kind: QuestionKind, text: str) -> Reading:
    return Reading.asking(kind, text, "plan 12 queens by 10 june")


_INVITE = re.compile(r"invite(?: (?P<name>\S.{0,39}))?", re.IGNORECASE)
_NUMBER = r"(?P<number>[+(]?\d[\d ()./-]{4,20}\d)"
"""Seven digits or more, as people write a phone number."""
_INVITE_BY_TEXT = re.compile(
    rf"invite(?: (?P<name>[^\W\d_](?:.{{0,38}}?\S)??))?[ ,:]+(?:(?:at|on|by) )?{_NUMBER}",
    re.IGNORECASE,
)
_MY_NUMBER = re.compile(
    rf"(?:my )?(?:new )?(?:phone |cell |mobile )?number(?: is)?(?: now)?[ :]+{_NUMBER}",
    re.IGNORECASE,
)


def crew_command_of(text: str, situation: Situation) -> Reading | None:
    """Read ``invite``, ``invite pat 202 555 0123``, ``number 202 555 0124``."""
    del situation
    if found := _INVITE_BY_TEXT.fullmatch(text):
        asked = Command(CommandName.INVITE, word=found["name"], number=found["number"])
        return Reading(command=asked)
    if found := _MY_NUMBER.fullmatch(text):
        return Reading(command=Command(CommandName.NUMBER, number=found["number"]))
    if found := _INVITE.fullmatch(text):
        return Reading(command=Command(CommandName.INVITE, word=found["name"]))
    return None
