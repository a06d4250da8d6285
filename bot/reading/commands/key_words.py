"""Words that a carrier also knows: they stop, start and explain, and only when they stand alone."""

import re

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


def key_word_of(text: str, situation: Situation) -> Reading | None:
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
