"""Who is in a crew and how reached: ``remove Milo``, ``Milo watcher``, ``leave``, ``forget me``."""

import re
from collections.abc import Callable

from bot.channels.traits import KNOWN_CHANNELS, SMS
from bot.reading.result import Command, CommandName, Reading
from bot.reading.situation import Situation

_SURE = r"(?P<sure>,? yes)?"
_NAME = r"(?P<name>\S.{0,39}?)"
_CHANNELS = {word: each.name for each in KNOWN_CHANNELS.values() for word in each.typed_as}
_CHANNELS |= {"number": SMS.name, "phone": SMS.name}

_REMOVE_WAY = re.compile(
    r"(?:remove|drop) (?:my )?(?:old |lost |phone |cell |mobile )*"
    rf"(?P<channel>{'|'.join(sorted(_CHANNELS, key=len, reverse=True))})(?: number| address)?"
    r"(?:[ :]+(?P<address>[+(]?\d[\d ()./-]{4,20}\d|\S+@\S+))?",
    re.IGNORECASE,
)
_REMOVE = re.compile(rf"(?:remove|kick out|throw out) {_NAME}{_SURE}", re.IGNORECASE)
_ROLE = re.compile(
    rf"(?:make |let )?{_NAME}(?: is| be| as)?(?: an?| the| only)* (?P<role>owner|keeper|watcher)",
    re.IGNORECASE,
)
_HAND_OVER = re.compile(
    rf"(?:hand|give) (?:over|(?:the |my )?crew(?: over)?) to {_NAME}{_SURE}", re.IGNORECASE
)
_LEAVE = re.compile(rf"leave(?: (?:my |the |this )?crew)?{_SURE}", re.IGNORECASE)
_MY_DATA = re.compile(r"(?:send |show |give )?(?:me )?(?:all )?(?:of )?my data", re.IGNORECASE)
_FORGET_ME = re.compile(rf"forget me{_SURE}", re.IGNORECASE)

_NO_NAMES = frozenset({"who", "whos", "what", "the", "my", "i", "am", "is", "yard", "box", "boxes"})
_NO_NAMES |= {"unit", "units", "queen", "queens", "cell", "cells", "trap", "traps", "feeder"}
"""With what no unknown person's name begins that somebody would name here."""


def people_command_of(text: str, situation: Situation) -> Reading | None:
    """Read what is said of the crew's people, and of where the person is reached."""
    for form, read in _FORMS:
        if found := form.fullmatch(text):
            return read(found, situation)
    return None


def _way(found: re.Match[str], _situation: Situation) -> Reading:
    channel = _CHANNELS[found["channel"].lower()]
    return _command(CommandName.REMOVE_WAY, word=channel, number=found["address"])


def _remove(found: re.Match[str], situation: Situation) -> Reading | None:
    return _of_somebody(CommandName.REMOVE, found, situation, sure=bool(found["sure"]))


def _role(found: re.Match[str], situation: Situation) -> Reading | None:
    return _of_somebody(CommandName.ROLE, found, situation, role=found["role"].lower())


def _hand_over(found: re.Match[str], situation: Situation) -> Reading | None:
    return _of_somebody(CommandName.HAND_OVER, found, situation, sure=bool(found["sure"]))


def _leave(found: re.Match[str], _situation: Situation) -> Reading:
    return _command(CommandName.LEAVE, sure=bool(found["sure"]))


def _my_data(_found: re.Match[str], _situation: Situation) -> Reading:
    return _command(CommandName.MY_DATA)


def _forget_me(found: re.Match[str], _situation: Situation) -> Reading:
    return _command(CommandName.FORGET_ME, sure=bool(found["sure"]))


_FORMS: tuple[tuple[re.Pattern[str], Callable[[re.Match[str], Situation], Reading | None]], ...] = (
    (_REMOVE_WAY, _way),
    (_LEAVE, _leave),
    (_MY_DATA, _my_data),
    (_FORGET_ME, _forget_me),
    (_HAND_OVER, _hand_over),
    (_ROLE, _role),
    (_REMOVE, _remove),
)


def _of_somebody(
    name: CommandName,
    found: re.Match[str],
    situation: Situation,
    role: str | None = None,
    *,
    sure: bool = False,
) -> Reading | None:
    """A command about a person by their name; None where it names a yard, a unit or a thing."""
    said = found["name"].strip()
    known = {each.casefold(): each for each in situation.people()}
    if said.casefold() not in known and not _may_be_a_name(said, situation):
        return None
    return _command(name, word=known.get(said.casefold(), said), role=role, sure=sure)


def _may_be_a_name(said: str, situation: Situation) -> bool:
    yards = {yard.name.casefold() for yard in situation.yards}
    words = said.casefold().split()
    a_number = any(letter.isdigit() for letter in said)
    return not a_number and words[0] not in _NO_NAMES and said.casefold() not in yards


def _command(
    name: CommandName,
    *,
    word: str | None = None,
    number: str | None = None,
    role: str | None = None,
    sure: bool = False,
) -> Reading:
    return Reading(command=Command(name, word=word, number=number, role=role, sure=sure))
