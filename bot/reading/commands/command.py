"""Which command a whole text is, if any; and the key words that a carrier knows too."""

import re
from collections.abc import Callable

from bot.reading.commands.code_commands import code_command_of
from bot.reading.commands.crew_commands import (
    crew_command_of,
    crew_setting_of,
    graft_plan_of,
)
from bot.reading.commands.people_commands import people_command_of
from bot.reading.commands.removing_commands import removing_of
from bot.reading.commands.set_up_commands import channels_of_person, quiet_of, set_up_of
from bot.reading.commands.view_commands import history_of, view_of
from bot.reading.result import Command, CommandName, Reading
from bot.reading.situation import Situation

LEAVE_WORDS = frozenset({"cancel", "end", "quit", "remove"})
"""Words of refusal that elsewhere leave what is asked."""

STOP_WORDS = frozenset({"stop", "stopall", "unsubscribe", "revoke", "optout"}) | LEAVE_WORDS
"""Words of refusal that carriers of texts act on themselves.

All but the last: "Customize users' opt-in and opt-out experience with Advanced Opt-Out",
www.twilio.com/docs/messaging/tutorials/advanced-opt-out; the last: "Required opt-out keywords",
docs.aws.amazon.com/sms-voice/latest/userguide/keywords-required.html.
"""
YES_WORDS = frozenset({"yes", "yes please", "y", "yep", "yeah"})
NO_WORDS = frozenset({"no", "no thanks", "n", "nope"}) | LEAVE_WORDS
START_WORDS = frozenset({"start", "unstop", "yes"})
HELP_WORDS = frozenset({"help", "info"})
_POLITE = re.compile(
    r"(?:please )?(?P<word>stop|start|help)(?: me| it| now| please| messages| the messages"
    r"| texting(?: me)?| messaging(?: me)?| sending(?: messages)?| texts)*",
    re.IGNORECASE,
)
"""A key word among words that only make it kinder."""


def _key_word_of(text: str, situation: Situation) -> Reading | None:
    """Read STOP, START, HELP, yes or no in any case, when nothing else is said."""
    word = text.lower().rstrip("?")
    polite = _POLITE.fullmatch(word)
    word = polite["word"] if polite else word
    if text.strip() == "?":
        word = "help"
    for words, name in _key_words(situation):
        if word in words:
            return Reading(command=Command(name))
    return None


def _key_words(situation: Situation) -> tuple[tuple[frozenset[str], CommandName], ...]:
    """Give what each key word means here; the first that fits counts.

    Carriers of texts ask that "cancel" stop all messages; where none asks it, it leaves a question.
    """
    stop = STOP_WORDS if situation.by_consent else STOP_WORDS - LEAVE_WORDS
    start = START_WORDS if situation.by_consent else START_WORDS - YES_WORDS
    return (
        (stop, CommandName.STOP),
        (YES_WORDS if situation.asked_yes_or_no else frozenset(), CommandName.YES),
        (NO_WORDS if situation.asked_yes_or_no else LEAVE_WORDS, CommandName.CANCEL),
        (start, CommandName.START),
        (HELP_WORDS, CommandName.HELP),
    )


_SLASH = re.compile(r"/(?P<name>[a-z_]+)(?:@\w+)?(?P<rest>.*)", re.IGNORECASE | re.DOTALL)

_FORMS: tuple[Callable[[str, Situation], Reading | None], ...] = (
    _key_word_of,
    view_of,
    code_command_of,
    crew_command_of,
    people_command_of,
    set_up_of,
    removing_of,
    quiet_of,
    channels_of_person,
    crew_setting_of,
    graft_plan_of,
    history_of,
)


def command_of(text: str, situation: Situation) -> Reading | None:
    """Give the command that the whole text is, with or without a leading slash."""
    said = without_slash(" ".join(text.split()).rstrip("!. "))
    for form in _FORMS:
        reading = form(said, situation)
        if reading is not None:
            return reading
    return None


def without_slash(text: str) -> str:
    """Take a leading slash off; a messenger's "/start CODE" becomes "join CODE".

    "/start" alone stays "start": whoever merely opens the chat may be waiting for a partner's
    code, and must not found a crew by it.
    """
    slash = _SLASH.fullmatch(text)
    if slash is None:
        return text
    name, rest = slash["name"], slash["rest"].strip()
    if name.lower() == "start" and rest:
        return f"join {rest}"
    return f"{name} {rest}".strip()
