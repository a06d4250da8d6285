"""Questions in loose words: "what do i have today", "any queens ready to take?"."""

import re

from bot.reading.result import CommandName

_ASKS = frozenset(
    [
        "what", "whats", "which", "who", "whos", "any", "anything", "show", "list", "tell",
        "how", "when", "give", "need", "want", "is", "are", "got", "should", "can",
    ]
)  # fmt: skip
"""One of these must be there: a question or a wish, not a report."""
_FILLERS = frozenset(
    [
        "s", "is", "are", "am", "do", "does", "did", "i", "we", "the", "a", "an", "me", "us",
        "my", "our", "have", "has", "had", "for", "on", "up", "to", "in", "of", "at", "there",
        "it", "please", "now", "all", "about", "coming", "going", "again", "else", "be", "can",
        "could", "hey", "hi", "ok", "so", "and", "got", "get", "will", "next", "then", "that",
        "still", "think", "must", "go", "look", "looking", "open", "done", "check", "checks",
        "work", "job", "jobs", "boxes", "many", "much", "show", "list", "tell", "give",
        "need", "want", "due",
    ]
)  # fmt: skip
"""Words that change nothing in what is asked."""
_KEYS: tuple[tuple[CommandName, frozenset[str]], ...] = (
    (CommandName.TOMORROW, frozenset({"tomorrow"})),
    (CommandName.WEEK, frozenset({"week", "this", "days"})),
    (CommandName.QUEENS, frozenset({"queens", "queen", "ready", "take", "sell", "laying", "sale"})),
    (CommandName.FAILING, frozenset({"failing", "units", "bad", "trouble", "wrong", "problems"})),
    (CommandName.CREW, frozenset({"crew", "team", "people"})),
    (CommandName.YARDS, frozenset({"yards"})),
    (CommandName.HELP, frozenset({"type", "say", "this", "work", "works", "use", "help", "send"})),
    (CommandName.DUE, frozenset({"today", "todays", "due", "list", "morning", "this"})),
)
"""Command -> the words that may stand beside the fillers when it is asked for."""
_MAIN: dict[CommandName, frozenset[str]] = {
    CommandName.TOMORROW: frozenset({"tomorrow"}),
    CommandName.WEEK: frozenset({"week"}),
    CommandName.QUEENS: frozenset({"queens"}),
    CommandName.FAILING: frozenset({"failing", "trouble", "problems"}),
    CommandName.CREW: frozenset({"crew", "team"}),
    CommandName.YARDS: frozenset({"yards"}),
    CommandName.HELP: frozenset({"type", "work", "works", "use", "help", "send"}),
    CommandName.DUE: frozenset({"today", "todays", "due"}),
}
"""Command -> the words of which one must be there."""


def asked_in_loose_words(said: str) -> CommandName | None:
    """Give the one command that a question in plain words asks for; None if it is not plain."""
    words = frozenset(re.findall(r"[a-z]+", said))
    if re.search(r"[^a-z' ?,]", said) or not (words & _ASKS):
        return None
    found = [name for name, beside in _KEYS if _asks_for(name, beside, words)]
    return found[0] if found else None


def _asks_for(name: CommandName, beside: frozenset[str], words: frozenset[str]) -> bool:
    left = words - _FILLERS - _ASKS
    due_alone = name is CommandName.DUE and not left and "due" in words
    return due_alone or (bool(words & _MAIN[name] & (left | {"work"})) and left <= beside)
