"""Commands that set a yard or person up: boxes, morning, zone, location, feeder."""

import re
from collections.abc import Callable
from datetime import time
from zoneinfo import available_timezones

from bot.reading.amounts import amount_at
from bot.reading.commands.boxes import boxes_of
from bot.reading.lexicon.measures import Measure
from bot.reading.limits import MOST_SYRUP_LITRES
from bot.reading.result import Command, CommandName, Question, QuestionKind, Reading
from bot.reading.situation import Situation
from bot.reading.words import cut

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
        (_LOCATION, _location),
        (_FEEDER, _feeder),
    )
    for pattern, reading in forms:
        if found := pattern.fullmatch(text):
            return reading(found)
    return boxes_of(text, situation)


def _bad(found: re.Match[str], *options: str) -> Reading:
    question = Question(QuestionKind.BAD_NUMBER, found.group(), options=options)
    return Reading(questions=(question,))


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


def _location(found: re.Match[str]) -> Reading:
    south, west = (found["ns"] or "").lower() == "s", (found["ew"] or "").lower() == "w"
    latitude = float(found["lat"]) * (-1 if south else 1)
    longitude = float(found["lon"]) * (-1 if west else 1)
    if abs(latitude) > 90 or abs(longitude) > 180:
        return _bad(found, "location 41.3, -92.6")
    return Reading(command=Command(CommandName.LOCATION, latitude=latitude, longitude=longitude))


def _feeder(found: re.Match[str]) -> Reading | None:
    if re.fullmatch(_NUMBER, found["amount"]):
        return _bad(found, "feeder 2 quarts")
    words = cut(found["amount"])
    amount = amount_at(words, 0) if words else None
    if amount is None or amount[0].measure is not Measure.LITRES or amount[1] != len(words):
        return None
    if not 0 < amount[0].number <= MOST_SYRUP_LITRES:
        return _bad(found, "feeder 2 quarts")
    return Reading(command=Command(CommandName.FEEDER, litres=amount[0].number))
