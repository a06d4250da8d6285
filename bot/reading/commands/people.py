"""Commands about people and yards by name: invite, my number, join, yard."""

import re

from bot.reading.result import Command, CommandName, Reading
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
_YARD = re.compile(
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
    if found := _YARD.fullmatch(text):
        return _yard(found["name"].strip(), situation)
    return None


def _yard(name: str, situation: Situation) -> Reading:
    known = [yard.name for yard in situation.yards if yard.name.lower() == name.lower()]
    yard = known[0] if known else None
    return Reading(command=Command(CommandName.YARD, yard=yard, word=yard or name), yard=yard)
