"""``quiet 21 to 6``: in which hours nothing comes unasked."""

import re
from datetime import time

from bot.reading.result import Command, CommandName, Question, QuestionKind, Reading
from bot.reading.situation import Situation

_CLOCK = r"\d{1,2}(?:[:.]\d{2})? ?(?:am|pm)?"
_QUIET = re.compile(
    rf"(?:my )?quiet(?: hours?| time)?(?: is| are)?(?: from)?"
    rf"(?: (?P<begin>{_CLOCK}) ?(?:to|till|until|-) ?(?P<end>{_CLOCK}))?\??",
    re.IGNORECASE,
)
_NONE = re.compile(
    r"(?:my )?(?:no quiet(?: hours?)?|quiet(?: hours?)? (?:off|none))", re.IGNORECASE
)
_USUAL = re.compile(r"(?:my )?(?:usual quiet(?: hours?)?|quiet(?: hours?)? usual)", re.IGNORECASE)


def quiet_of(text: str, situation: Situation) -> Reading | None:
    """Read ``quiet``, ``quiet 9pm to 5am``, ``quiet off`` and ``usual quiet``."""
    del situation
    if _NONE.fullmatch(text):
        return Reading(command=Command(CommandName.QUIET, at=time(), until=time()))
    if _USUAL.fullmatch(text):
        return Reading(command=Command(CommandName.QUIET, word="usual"))
    found = _QUIET.fullmatch(text)
    if found is None:
        return None
    if found["begin"] is None:
        return Reading(command=Command(CommandName.QUIET))
    begin, end = _time(found["begin"]), _time(found["end"])
    if begin is None or end is None:
        question = Question(QuestionKind.BAD_NUMBER, text, options=("quiet 21 to 6",))
        return Reading(questions=(question,))
    return Reading(command=Command(CommandName.QUIET, at=begin, until=end))


def _time(written: str) -> time | None:
    half = written.lower()[-2:] if written.lower().endswith(("am", "pm")) else ""
    hour, _, minute = written.lower().removesuffix(half).strip().replace(".", ":").partition(":")
    hours, minutes = int(hour), int(minute or 0)
    if half and not 1 <= hours <= 12:
        return None
    if half:
        hours = hours % 12 + (12 if half == "pm" else 0)
    return time(hours, minutes) if hours < 24 and minutes < 60 else None
