"""What is set up and settled: morning, zone, location, feeder, boxes, channels, quiet hours."""

import re
from collections.abc import Callable
from datetime import time
from zoneinfo import available_timezones

from bot.channels.traits import KNOWN_CHANNELS
from bot.reading.lexicon.measures import LONGEST_MINUTES, MOST_BOXES, MOST_SYRUP_LITRES, Measure
from bot.reading.result import Command, CommandName, QuestionKind, Reading
from bot.reading.situation import Situation
from bot.reading.tokens.amounts import amount_at
from bot.reading.tokens.token import tokenise
from bot.reading.tokens.yard_names import yard_apart
from scheduling.places import LETTERS

_MORNING = re.compile(
    r"(?:please )?(?:send |set )?(?:me )?(?:my |the )?morning (?:messages? |texts? )?(?:at |to )?"
    r"(?P<hour>\d{1,2})(?:[:. h]?(?P<minute>\d{2}))? ?(?P<half>am|pm|a\.m|p\.m)?",
    re.IGNORECASE,
)
_ZONE = re.compile(
    r"(?:my |set )?(?:time ?)?zone (?:is |to )?(?P<name>[a-z][\w/+-]*(?: [a-z]\w*){0,2})",
    re.IGNORECASE,
)
_NUMBER = r"[+-]?\d{1,3}(?:\.\d+)?"
_LOCATION = re.compile(
    rf"location (?P<lat>{_NUMBER}) ?(?P<ns>[ns])?(?: ?, ?| )(?P<lon>{_NUMBER}) ?(?P<ew>[ew])?",
    re.IGNORECASE,
)
_FEEDER = re.compile(
    r"(?:my |our |each )?feeders? (?:is |are |holds? |takes? )?(?P<amount>.+)",
    re.IGNORECASE,
)


def set_up_of(text: str, situation: Situation) -> Reading | None:
    """Read a command that sets something up; a wrong value gives a question."""
    forms: tuple[tuple[re.Pattern[str], Callable[[re.Match[str]], Reading | None]], ...] = (
        (_MORNING, _morning),
        (_ZONE, _zone),
        (_FEEDER, _feeder),
    )
    for pattern, reading in forms:
        if found := pattern.fullmatch(text):
            return reading(found)
    return _of_a_yard(text, situation)


def _of_a_yard(text: str, situation: Situation) -> Reading | None:
    """Read boxes and a place on the map, in the current or the named yard."""
    if "box" not in text.lower() and "location" not in text.lower():
        return None
    names = [yard.name for yard in situation.yards]
    yard, said = yard_apart(text, names, situation.current_yard)
    if found := _LOCATION.fullmatch(said):
        return _location(found, yard)
    return _boxes(said, yard)


def _bad(found: re.Match[str], *options: str) -> Reading:
    return Reading.asking(QuestionKind.BAD_NUMBER, found.group(), *options)


def _morning(found: re.Match[str]) -> Reading:
    hour, minute = int(found["hour"]), int(found["minute"] or 0)
    half = (found["half"] or "").lower()[:1]
    if half and not 1 <= hour <= 12:
        return _bad(found, "morning 6:30")
    if half:
        hour = hour % 12 + (12 if half == "p" else 0)
    if hour > 23 or minute > 59:
        return _bad(found, "morning 6:30")
    return Reading(command=Command(CommandName.MORNING, at=time(hour, minute)))


def _zone(found: re.Match[str]) -> Reading:
    """Whether a name that is no zone's is a city's is seen when the zone is set."""
    names = {name.lower(): name for name in available_timezones()}
    said = found["name"]
    return Reading(command=Command(CommandName.ZONE, word=names.get(said.lower(), said)))


def _location(found: re.Match[str], yard: str | None) -> Reading:
    south, west = (found["ns"] or "").lower() == "s", (found["ew"] or "").lower() == "w"
    latitude = float(found["lat"]) * (-1 if south else 1)
    longitude = float(found["lon"]) * (-1 if west else 1)
    if abs(latitude) > 90 or abs(longitude) > 180:
        return _bad(found, "location 41.3, -92.6")
    where = Command(CommandName.LOCATION, yard=yard, latitude=latitude, longitude=longitude)
    return Reading(command=where, yard=yard)


def _feeder(found: re.Match[str]) -> Reading | None:
    if re.fullmatch(_NUMBER, found["amount"]):
        return _bad(found, "feeder 2 quarts")
    words = tokenise(found["amount"])
    amount = amount_at(words, 0) if words else None
    if amount is None or amount[0].measure is not Measure.LITRES or amount[1] != len(words):
        return None
    if not 0 < amount[0].number <= MOST_SYRUP_LITRES:
        return _bad(found, "feeder 2 quarts")
    return Reading(command=Command(CommandName.FEEDER, litres=amount[0].number))


_BOX_LIST = r"(?P<list>\d{1,4}(?: ?(?:-|to|thru|through|,|and|&) ?\d{1,4})*?)"
_BOXES = re.compile(
    r"(?:(?:i|we) have |there are |set up |please )?(?:new |add |make )?"
    rf"box(?:es)? {_BOX_LIST},? ?(?:has |have |are |is )?"
    r"(?:(?P<single>singles?|whole|undivided)"
    r"|(?:(?:of|with|x|by) ?(?P<of>\w+)"
    r"|(?P<each>\w+) (?:each|ways?|units?|compartments?|nucs?|sides?))"
    r"(?: each| (?:compartments?|units?|nucs?|sides?)(?: each)?)?)",
    re.IGNORECASE,
)
_COMPARTMENTS = dict(
    zip(["one", "two", "three", "four", "five", "six", "seven", "eight"], range(1, 9), strict=True)
)


def _boxes(said: str, yard: str | None) -> Reading | None:
    """Read boxes with their compartments."""
    found = _BOXES.fullmatch(said)
    if found is None:
        return None
    boxes = _box_numbers(found["list"])
    compartments = 1 if found["single"] else _compartments(found["of"] or found["each"])
    if boxes is None or compartments is None:
        return Reading.asking(QuestionKind.BAD_NUMBER, said, "boxes 1-12 of 3")
    command = Command(CommandName.BOXES, yard=yard, boxes=boxes, compartments=compartments)
    return Reading(command=command, yard=yard)


def _compartments(word: str) -> int | None:
    count = int(word) if word.isdecimal() else _COMPARTMENTS.get(word.lower(), 0)
    return count if 1 <= count <= len(LETTERS) else None


def _box_numbers(listed: str) -> tuple[int, ...] | None:
    """Give the numbers of "1-4, 7", or None if a run goes backward or is too long."""
    found: list[int] = []
    for part in re.split(r" ?(?:,|and|&) ?", listed.lower()):
        ends = [int(end) for end in re.split(r" ?(?:-|to|thru|through) ?", part)]
        if len(ends) > 2 or ends[0] > ends[-1] or ends[-1] - ends[0] >= MOST_BOXES:
            return None
        found.extend(range(ends[0], ends[-1] + 1))
    sound = min(found) > 0 and len(found) <= MOST_BOXES
    return tuple(dict.fromkeys(found)) if sound else None


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
        return Reading.asking(QuestionKind.BAD_NUMBER, text, "other channel after 30 minutes")
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
        return Reading.asking(QuestionKind.BAD_NUMBER, text, "quiet 21 to 6")
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
