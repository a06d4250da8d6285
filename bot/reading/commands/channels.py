"""``text first``, ``then chat after 30 minutes``: which channel comes first, which after it."""

import re

from bot.reading.limits import LONGEST_MINUTES
from bot.reading.result import Command, CommandName, Question, QuestionKind, Reading
from bot.reading.situation import Situation

_CHANNELS = {
    "text": "sms", "texts": "sms", "sms": "sms", "telegram": "telegram", "chat": "telegram",
    "mail": "mail", "email": "mail", "e-mail": "mail",
}  # fmt: skip
_NAMES = "|".join(_CHANNELS)
_SHOWN = re.compile(r"(?:my )?channels\??", re.IGNORECASE)
_ADD = re.compile(
    rf"(?:add|link|connect) (?:a |an |my |the |another |second )*(?:{_NAMES}|channel)",
    re.IGNORECASE,
)
_FIRST = re.compile(rf"(?:my )?(?P<name>{_NAMES}) (?:comes |is )?first", re.IGNORECASE)
_AFTER = re.compile(
    r"(?:other|next|second) (?:channel |way )?(?:after|in) (?P<number>\d{1,4}) ?"
    r"(?P<hours>h|hours?)?(?:m|min|mins|minutes?)?",
    re.IGNORECASE,
)
_NEVER = re.compile(r"(?:other|next|second) (?:channel |way )?(?:never|off)", re.IGNORECASE)


def channels_of_person(text: str, situation: Situation) -> Reading | None:
    """Read what is said of channels: ``add chat``, ``text first``, ``other channel never``."""
    del situation
    if _SHOWN.fullmatch(text):
        return Reading(command=Command(CommandName.CHANNELS))
    if _ADD.fullmatch(text):
        return Reading(command=Command(CommandName.ADD_CHANNEL))
    if found := _FIRST.fullmatch(text):
        first = _CHANNELS[found["name"].lower()]
        return Reading(command=Command(CommandName.CHANNELS, word=first))
    if _NEVER.fullmatch(text):
        return Reading(command=Command(CommandName.CHANNELS, minutes=0))
    found = _AFTER.fullmatch(text)
    if found is None:
        return None
    minutes = int(found["number"]) * (60 if found["hours"] else 1)
    if not 1 <= minutes <= LONGEST_MINUTES:
        options = ("other channel after 30 minutes",)
        return Reading(questions=(Question(QuestionKind.BAD_NUMBER, text, options=options),))
    return Reading(command=Command(CommandName.CHANNELS, minutes=minutes))
