"""Commands about people: invite, my number, join, yard by name, channels and quiet hours."""

import re
from datetime import time

from bot.channels.traits import KNOWN_CHANNELS
from bot.reading.lexicon.measures import LONGEST_MINUTES
from bot.reading.result import Command, CommandName, Question, QuestionKind, Reading
from bot.reading.situation import Situation

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
_JOIN = re.compile(r"join (?P<code>[a-z0-9-]{4,32})", re.IGNORECASE)
_YARD_NAMED = re.compile(
    r"(?:new |make |add )?yard (?:(?:called|named) )?(?P<name>\S.{0,39})", re.IGNORECASE
)


def crew_command_of(text: str, situation: Situation) -> Reading | None:
    """Read ``invite``, ``invite pat 202 555 0123``, ``join ABCD23``, ``yard River``."""
    if found := _INVITE_BY_TEXT.fullmatch(text):
        asked = Command(CommandName.INVITE, word=found["name"], number=found["number"])
        return Reading(command=asked)
    if found := _MY_NUMBER.fullmatch(text):
        return Reading(command=Command(CommandName.NUMBER, number=found["number"]))
    if found := _INVITE.fullmatch(text):
        return Reading(command=Command(CommandName.INVITE, word=found["name"]))
    if found := _JOIN.fullmatch(text):
        return Reading(command=Command(CommandName.JOIN, word=found["code"].upper()))
    if found := _YARD_NAMED.fullmatch(text):
        return _yard(found["name"].strip(), situation)
    return None


def _yard(name: str, situation: Situation) -> Reading:
    known = [yard.name for yard in situation.yards if yard.name.lower() == name.lower()]
    yard = known[0] if known else None
    return Reading(command=Command(CommandName.YARD, yard=yard, word=yard or name), yard=yard)


_CHANNELS = {word: each.name for each in KNOWN_CHANNELS.values() for word in each.typed_as}
_CHANNEL_NAMES = "|".join(_CHANNELS)
_CHANNELS_SHOWN = re.compile(r"(?:my )?channels\??", re.IGNORECASE)
_ADD_CHANNEL = re.compile(
    rf"(?:add|link|connect) (?:a |an |my |the |another |second )*(?:{_CHANNEL_NAMES}|channel)",
    re.IGNORECASE,
)
_CHANNEL_FIRST = re.compile(
    rf"(?:my )?(?P<name>{_CHANNEL_NAMES}) (?:comes |is )?first", re.IGNORECASE
)
_NEXT_CHANNEL_AFTER = re.compile(
    r"(?:other|next|second) (?:channel |way )?(?:after|in) (?P<number>\d{1,4}) ?"
    r"(?P<hours>h|hours?)?(?:m|min|mins|minutes?)?",
    re.IGNORECASE,
)
_NEXT_CHANNEL_NEVER = re.compile(
    r"(?:other|next|second) (?:channel |way )?(?:never|off)", re.IGNORECASE
)


def channels_of_person(text: str, situation: Situation) -> Reading | None:
    """Read what is said of channels: ``add chat``, ``text first``, ``other channel never``."""
    del situation
    if _CHANNELS_SHOWN.fullmatch(text):
        return Reading(command=Command(CommandName.CHANNELS))
    if _ADD_CHANNEL.fullmatch(text):
        return Reading(command=Command(CommandName.ADD_CHANNEL))
    if found := _CHANNEL_FIRST.fullmatch(text):
        first = _CHANNELS[found["name"].lower()]
        return Reading(command=Command(CommandName.CHANNELS, word=first))
    if _NEXT_CHANNEL_NEVER.fullmatch(text):
        return Reading(command=Command(CommandName.CHANNELS, minutes=0))
    found = _NEXT_CHANNEL_AFTER.fullmatch(text)
    if found is None:
        return None
    minutes = int(found["number"]) * (60 if found["hours"] else 1)
    if not 1 <= minutes <= LONGEST_MINUTES:
        options = ("other channel after 30 minutes",)
        return Reading(questions=(Question(QuestionKind.BAD_NUMBER, text, options=options),))
    return Reading(command=Command(CommandName.CHANNELS, minutes=minutes))


_CLOCK = r"\d{1,2}(?:[:.]\d{2})? ?(?:am|pm)?"
_QUIET = re.compile(
    rf"(?:my )?quiet(?: hours?| time)?(?: is| are)?(?: from)?"
    rf"(?: (?P<begin>{_CLOCK}) ?(?:to|till|until|-) ?(?P<end>{_CLOCK}))?\??",
    re.IGNORECASE,
)
_NO_QUIET = re.compile(
    r"(?:my )?(?:no quiet(?: hours?)?|quiet(?: hours?)? (?:off|none))", re.IGNORECASE
)
_USUAL_QUIET = re.compile(
    r"(?:my )?(?:usual quiet(?: hours?)?|quiet(?: hours?)? usual)", re.IGNORECASE
)


def quiet_of(text: str, situation: Situation) -> Reading | None:
    """Read ``quiet``, ``quiet 9pm to 5am``, ``quiet off`` and ``usual quiet``."""
    del situation
    if _NO_QUIET.fullmatch(text):
        return Reading(command=Command(CommandName.QUIET, at=time(), until=time()))
    if _USUAL_QUIET.fullmatch(text):
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
