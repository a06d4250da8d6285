"""Words that a carrier also knows: they stop, start and explain, and only when they stand alone."""

from bot.reading.result import Command, CommandName, Reading
from bot.reading.situation import Situation

STOP_WORDS = frozenset(
    {"stop", "stopall", "unsubscribe", "cancel", "end", "quit", "revoke", "optout", "remove"}
)
"""Words of refusal that carriers in North America act on themselves (from memory)."""
START_WORDS = frozenset({"start", "unstop", "yes"})
HELP_WORDS = frozenset({"help", "info"})


def key_word_of(text: str, situation: Situation) -> Reading | None:
    """Read STOP, START or HELP in any case, when nothing else is said."""
    del situation
    word = text.lower().rstrip("?")
    for words, name in (
        (STOP_WORDS, CommandName.STOP),
        (START_WORDS, CommandName.START),
        (HELP_WORDS, CommandName.HELP),
    ):
        if word in words:
            return Reading(command=Command(name))
    return None
