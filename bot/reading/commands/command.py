"""Which command a whole text is, if any."""

import re
from collections.abc import Callable

from bot.reading.commands.channels import channels_of_person
from bot.reading.commands.crew_settings import crew_setting_of
from bot.reading.commands.history import history_of
from bot.reading.commands.key_words import key_word_of
from bot.reading.commands.people import crew_command_of
from bot.reading.commands.plans import plan_of
from bot.reading.commands.quiet import quiet_of
from bot.reading.commands.set_up import set_up_of
from bot.reading.commands.views import view_of
from bot.reading.result import Reading
from bot.reading.situation import Situation

_SLASH = re.compile(r"/(?P<name>[a-z_]+)(?:@\w+)?(?P<rest>.*)", re.IGNORECASE | re.DOTALL)

_FORMS: tuple[Callable[[str, Situation], Reading | None], ...] = (
    key_word_of,
    view_of,
    crew_command_of,
    set_up_of,
    quiet_of,
    channels_of_person,
    crew_setting_of,
    plan_of,
    history_of,
)


def command_of(text: str, situation: Situation) -> Reading | None:
    """Give the command that the whole text is, with or without a leading slash."""
    said = " ".join(text.split()).rstrip("!. ")
    slash = _SLASH.fullmatch(said)
    if slash is not None:
        said = _without_slash(slash["name"], slash["rest"].strip())
    for form in _FORMS:
        reading = form(said, situation)
        if reading is not None:
            return reading
    return None


def _without_slash(name: str, rest: str) -> str:
    """Turn a messenger's "/start CODE" into "join CODE".

    "/start" alone stays "start": whoever merely opens the chat may be waiting for a partner's
    code, and must not found a crew by it.
    """
    if name.lower() == "start" and rest:
        return f"join {rest}"
    return f"{name} {rest}".strip()
