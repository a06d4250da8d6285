"""``plan 12 queens by 10 june``: queens wanted by a day; "graft for 10 june" names no number."""

import re
from datetime import date

from bot.reading.dates import spoken_at
from bot.reading.limits import MOST_PLANNED_QUEENS
from bot.reading.numbers import number_at
from bot.reading.result import Command, CommandName, Question, QuestionKind, Reading
from bot.reading.situation import Situation
from bot.reading.words import cut

_PLAN = re.compile(
    r"(?P<plan>plan )?"
    r"(?:when (?:do|should|must|to) ?(?:i |we )?graft ?)?"
    r"(?:(?:i|we) (?:need|want|would like) |to (?:get|have) |need |want |graft )?(?:for )?"
    r"(?P<count>[a-z0-9 ]+?) (?:laying |mated |good )*queens? "
    r"(?:(?:ready|laying|mated) )?(?:by|on|before|for) (?P<day>.+)",
    re.IGNORECASE,
)

_WITHOUT_NUMBER = re.compile(r"(?P<asked>.+) (?:for|by|before|on) (?P<day>.+)")
_WANTED = frozenset({"plan", "graft", "queen", "queens"})
_AROUND = frozenset({
    "when", "what", "do", "should", "must", "to", "i", "we", "need", "want", "would", "like", "now",
    "get", "have", "for", "be", "a", "my", "new", "some", "laying", "mated", "good", "ready",
    "wanted", "needed",
})  # fmt: skip
"""Words that may stand beside them in such a wish, and nowhere in a report."""


def plan_of(text: str, situation: Situation) -> Reading | None:
    """Read how many laying queens are wanted by which day; without a number, by which day."""
    found = _PLAN.fullmatch(text.rstrip("?"))
    if found is None:
        return _without_number(text.rstrip("?"), situation)
    count = number_at(cut(found["count"]), 0)
    whole = count is not None and count[1] == len(cut(found["count"]))
    if count is None or not whole or not _plannable(count[0]):
        asked = _ask(QuestionKind.BAD_NUMBER, text) if found["plan"] else None
        return _without_number(text.rstrip("?"), situation) or asked
    on = _day(found["day"], situation)
    if on is None:
        return _ask(QuestionKind.WHICH_DATE, text)
    return Reading(command=Command(CommandName.PLAN, count=int(count[0]), on=on))


def _without_number(text: str, situation: Situation) -> Reading | None:
    found = _WITHOUT_NUMBER.fullmatch(text.lower())
    asked = set(found["asked"].split()) if found else set()
    if found is None or not asked & _WANTED or asked - _WANTED - _AROUND:
        return None
    on = _day(found["day"], situation)
    return Reading(command=Command(CommandName.PLAN, on=on)) if on else None


def _day(said: str, situation: Situation) -> date | None:
    words = cut(said)
    spoken = spoken_at(words, 0)
    return spoken[0].wanted(situation.today) if spoken and spoken[1] == len(words) else None


def _plannable(count: float) -> bool:
    return count.is_integer() and 1 <= count <= MOST_PLANNED_QUEENS


def _ask(kind: QuestionKind, text: str) -> Reading:
    return Reading(questions=(Question(kind, text, options=("plan 12 queens by 10 june",)),))
