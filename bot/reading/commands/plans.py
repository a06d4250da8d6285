"""``plan 12 queens by 10 june``: queens wanted by a day."""

import re

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


def plan_of(text: str, situation: Situation) -> Reading | None:
    """Read how many laying queens are wanted by which day."""
    found = _PLAN.fullmatch(text.rstrip("?"))
    if found is None:
        return None
    count = number_at(cut(found["count"]), 0)
    whole = count is not None and count[1] == len(cut(found["count"]))
    if count is None or not whole or not _plannable(count[0]):
        return _ask(QuestionKind.BAD_NUMBER, text) if found["plan"] else None
    words = cut(found["day"])
    spoken = spoken_at(words, 0)
    on = spoken[0].wanted(situation.today) if spoken and spoken[1] == len(words) else None
    if on is None:
        return _ask(QuestionKind.WHICH_DATE, text)
    return Reading(command=Command(CommandName.PLAN, count=int(count[0]), on=on))


def _plannable(count: float) -> bool:
    return count.is_integer() and 1 <= count <= MOST_PLANNED_QUEENS


def _ask(kind: QuestionKind, text: str) -> Reading:
    return Reading(questions=(Question(kind, text, options=("plan 12 queens by 10 june",)),))
