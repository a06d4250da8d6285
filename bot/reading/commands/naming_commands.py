"""Commands that give a name, read from the text as it was written: ``new yard St. Mary's``."""

import re

from bot.reading.commands.command import without_slash
from bot.reading.result import Command, CommandName, Reading
from bot.reading.situation import Situation
from bot.reading.tokens.yard_names import is_same_name, yard_called

_NAME = r"\S.{0,39}"
_YARD = re.compile(
    rf"(?:new |make |add )?yard (?:(?:called|named) )?(?P<name>{_NAME})", re.IGNORECASE
)


_RENAME = re.compile(
    rf"rename (?:the )?(?P<said>yard )?(?P<old>\S.*?) (?:to|as|into) (?P<name>{_NAME})",
    re.IGNORECASE,
)


def naming_of(text: str, situation: Situation) -> Reading | None:
    """Read ``yard River`` and ``rename River to Ridge``, with or without a leading slash."""
    written = without_slash(" ".join(text.split())).rstrip("!. ")
    if found := _YARD.fullmatch(written):
        return _yard(found["name"].strip(), situation)
    found = _RENAME.fullmatch(written)
    return None if found is None else _rename(found, situation)


def _rename(found: re.Match[str], situation: Situation) -> Reading | None:
    """Something else than a yard may be called otherwise too, unless the text says yard."""
    names = [yard.name for yard in situation.yards]
    yard = yard_called(found["old"], names, situation.current_yard)
    if yard is None and not found["said"]:
        return None
    command = Command(CommandName.RENAME_YARD, yard=yard, word=found["name"].strip())
    return Reading(command=command, yard=yard)


def _yard(name: str, situation: Situation) -> Reading:
    yard = known_yard(name, situation)
    return Reading(command=Command(CommandName.YARD, yard=yard, word=yard or name), yard=yard)


def known_yard(name: str, situation: Situation) -> str | None:
    """Give a yard's name as it is kept, whatever its capitals and marks."""
    known = (yard.name for yard in situation.yards if is_same_name(yard.name, name))
    return next(known, None)
