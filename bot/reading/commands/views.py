"""Commands that show or take back something: due, tomorrow, week, queens, undo."""

from bot.reading.commands.loose_words import asked_in_loose_words
from bot.reading.lexicon.table import vocabulary
from bot.reading.one_slip import is_one_slip
from bot.reading.result import Command, CommandName, Reading
from bot.reading.situation import Situation

_WORDS: dict[CommandName, tuple[str, ...]] = {
    CommandName.DUE: (
        "due", "what is due", "whats due", "what due", "today", "what today", "list", "whats up",
        "what is up", "whats on", "what is on", "due today",
    ),
    CommandName.TOMORROW: ("tomorrow", "due tomorrow", "what tomorrow", "whats due tomorrow"),
    CommandName.WEEK: ("week", "this week", "due this week", "the week", "next week"),
    CommandName.MORE: ("more",),
    CommandName.QUEENS: (
        "queens", "queens ready", "which queens", "ready queens", "laying queens", "any queens",
        "ready", "whats ready", "what is ready", "who is ready",
    ),
    CommandName.FAILING: (
        "failing", "failures", "whats failing", "what is failing", "problems", "failing units",
        "units failing", "which units are failing",
    ),
    CommandName.UNDO: (
        "undo", "undo that", "take it back", "take that back", "undo last", "undo it",
        "undo please",
        "scratch that", "delete that", "delete last",
        "undo the last", "undo last one", "delete the last one", "undo the last one", "scratch it",
        "delete last entry", "undo last entry", "undo my last", "ignore that", "strike that",
    ),
    CommandName.CAUTIONS: ("cautions", "caution", "safety", "warnings"),
    CommandName.BEGIN: ("begin",),
    CommandName.YARDS: ("yards", "my yards", "list yards"),
    CommandName.CREW: ("crew", "my crew", "who is in my crew"),
}  # fmt: skip
"""Command -> the texts that ask for it."""

_OF_A_YARD = frozenset(
    {
        CommandName.DUE,
        CommandName.TOMORROW,
        CommandName.WEEK,
        CommandName.QUEENS,
        CommandName.FAILING,
    }
)
_SLIPPABLE = 4
"""Single words from this length on are still known with one slip."""


def view_of(text: str, situation: Situation) -> Reading | None:
    """Read a command, with a yard's name before or after it where that makes sense."""
    said = text.lower().rstrip("?").strip()
    yard, rest = _yard_apart(said, situation)
    name = _named(rest)
    if name is None or (yard is not None and name not in _OF_A_YARD):
        return None
    return Reading(command=Command(name, yard=yard), yard=yard)


def _yard_apart(said: str, situation: Situation) -> tuple[str | None, str]:
    for yard in situation.yards:
        name = yard.name.lower()
        for joint in (f" at {name}", f" in {name}", f" for {name}", f" {name}"):
            if said.endswith(joint):
                return yard.name, said.removesuffix(joint)
        if said.startswith(f"{name} "):
            return yard.name, said.removeprefix(f"{name} ")
    return None, said


def _named(said: str) -> CommandName | None:
    exact = [name for name, words in _WORDS.items() if said in words]
    asked = exact[:1] or [name for name in (asked_in_loose_words(said),) if name]
    if asked:
        return asked[0]
    # No command of these has a number in it: a text that does speaks of a unit.
    if len(said) < _SLIPPABLE or said in vocabulary() or any(map(str.isdigit, said)):
        return None
    near = {name for name, words in _WORDS.items() for word in words if _slip(said, word)}
    return near.pop() if len(near) == 1 else None


def _slip(said: str, word: str) -> bool:
    return " " not in word and len(word) >= _SLIPPABLE and is_one_slip(said, word)
