"""Commands about codes: ``join ABCD23``, ``begin ABCD2345``, ``codes``, ``withdraw ABCD23``."""

import re

from bot.reading.result import Command, CommandName, Reading
from bot.reading.situation import Situation

_CODE = "(?P<code>[a-z0-9-]{4,32})"
_WITH_CODE = {
    CommandName.JOIN: re.compile(rf"join {_CODE}", re.IGNORECASE),
    CommandName.BEGIN: re.compile(r"begin (?P<code>[a-z0-9-]{6,32})", re.IGNORECASE),
    CommandName.WITHDRAW: re.compile(
        rf"(?:withdraw|revoke) (?:the )?(?:code )?{_CODE}", re.IGNORECASE
    ),
}
_CODES = re.compile(r"(?:my |our |the )?(?:open )?codes\??", re.IGNORECASE)


def code_command_of(text: str, situation: Situation) -> Reading | None:
    """Read what is done with a code."""
    del situation
    for name, form in _WITH_CODE.items():
        if found := form.fullmatch(text):
            return Reading(command=Command(name, word=found["code"].upper()))
    return Reading(command=Command(CommandName.CODES)) if _CODES.fullmatch(text) else None
