"""Which command a whole text is, if any; and the key words that a carrier knows too."""

import re
from collections.abc import Callable

from bot.reading.commands.crew_commands import (
    crew_command_of,
    crew_setting_of,
    graft_plan_of,
)
from bot.reading.commands.people_commands import people_command_of
from bot.reading.commands.set_up_commands import channels_of_person, quiet_of, set_up_of
from bot.reading.commands.view_commands import history_of, view_of
from bot.reading.result import Command, CommandName, Reading
from bot.reading.situation import Situation

STOP_WORDS = frozenset(
    {"stop", "stopall", "unsubscribe", "cancel", "end", "quit", "revoke", "optout", "remove"}
)
"""Words of refusal that carriers act on themselves.

All but the last: "Customize users' opt-in and opt-out experience with Advanced Opt-Out",
www.twilio.com/docs/messaging/tutorials/advanced-opt-out; the last: "Required opt-out keywords",
docs.aws.amazon.com/sms-voice/latest/userguide/keywords-required.html.
"""
START_WORDS = frozenset({"start", "unstop", "yes"})
HELP_WORDS = frozenset({"help", "info"})
_POLITE = re.compile(
    r"(?:please )?(?P<word>stop|start|help)(?: me| it| now| please| messages| the messages"
    r"| texting(?: me)?| messaging(?: me)?| sending(?: messages)?| texts)*",
    re.IGNORECASE,
)
"""A key word among words that only make it kinder."""


def _key_word_of(text: str, situation: Situation) -> Reading | None:
    """Read STOP, START or HELP in any case, when nothing else is said."""
    del situation
    word = text.lower().rstrip("?")
    polite = _POLITE.fullmatch(word)
    word = polite["word"] if polite else word
    if text.strip() == "?":
        word = "help"
    for words, name in (
        (STOP_WORDS, CommandName.STOP),
        (START_WORDS, CommandName.START),
        (HELP_WORDS, CommandName.HELP),
    ):
        if word in words:
            return Reading(command=Command(name))
    return None


_SLASH = re.compile(r"/(?P<name>[a-z_]+)(?:@\w+)?(?P<rest>.*)", re.IGNORECASE | re.DOTALL)

_FORMS: tuple[Callable[[str, Situation], Reading | None], ...] = (
    _key_word_of,
    view_of,
    crew_command_of,
    people_command_of,
    set_up_of,
    quiet_of,
    channels_of_person,
    crew_setting_of,
    graft_plan_of,
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
