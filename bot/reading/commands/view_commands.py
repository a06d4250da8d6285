"""Commands that show something: due, tomorrow, week, queens; the story of one unit; undo."""

import re

from bot.reading.lexicon.phrase_table import vocabulary
from bot.reading.meaning.resolve import resolve, said, yards_with_box
from bot.reading.result import Command, CommandName, Question, QuestionKind, Reading
from bot.reading.scan.elements import AtYard, Cursor, NamedUnits
from bot.reading.scan.scanner import scan_lazily
from bot.reading.situation import Situation
from bot.reading.tokens.token import tokenise
from bot.reading.tokens.typos import is_one_typo
from bot.reading.tokens.yard_names import yard_apart
from scheduling.places import UnitName

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
_SHORTEST_WITH_TYPO = 4
"""Single words from this length on are still known with one typo."""


def view_of(text: str, situation: Situation) -> Reading | None:
    """Read a command, with a yard's name before or after it where that makes sense."""
    said = text.lower().rstrip("?").strip()
    names = [yard.name for yard in situation.yards]
    yard, rest = yard_apart(said, names, situation.current_yard)
    name = _named(rest)
    if name is None or (yard is not None and name not in _OF_A_YARD):
        return None
    return Reading(command=Command(name, yard=yard), yard=yard)


def _named(said: str) -> CommandName | None:
    exact = [name for name, words in _WORDS.items() if said in words]
    asked = exact[:1] or [name for name in (_asked_in_loose_words(said),) if name]
    if asked:
        return asked[0]
    # No command of these has a number in it: a text that does speaks of a unit.
    if len(said) < _SHORTEST_WITH_TYPO or said in vocabulary() or any(map(str.isdigit, said)):
        return None
    near = {name for name, words in _WORDS.items() for word in words if _is_typo(said, word)}
    return near.pop() if len(near) == 1 else None


def _is_typo(said: str, word: str) -> bool:
    return " " not in word and len(word) >= _SHORTEST_WITH_TYPO and is_one_typo(said, word)


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


def _asked_in_loose_words(said: str) -> CommandName | None:
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


_ASKING = re.compile(
    r"(?:(?:so )?how(?: is| s| are| about)?|"
    r"whats? (?:is )?(?:up with|with|in|about|of|going on in)|"
    r"history(?: of)?|story(?: of)?|show(?: me)?|tell me about|status(?: of)?) ",
    re.IGNORECASE,
)


def history_of(text: str, situation: Situation) -> Reading | None:
    """Read "4b", "4b?", "how is 4b", "river 4b"."""
    asked = _ASKING.match(text)
    rest = text[asked.end() :] if asked else text
    rest = re.sub(
        r" (?:doing|history|status|story|going)$", "", rest.rstrip("? "), flags=re.IGNORECASE
    )
    if re.search(r"\b(?:at|in|on|to|into|all|of)\b", rest, re.IGNORECASE):
        return None
    names = [known.name for known in situation.yards]
    unit: NamedUnits | None = None
    yard: str | None = None
    # Most texts report of a unit: the word after its name tells that they do not ask for it.
    for element in scan_lazily(
        Cursor(rest, tokenise(rest), names, current_yard=situation.current_yard)
    ):
        if isinstance(element, AtYard):
            yard = element.name
        elif isinstance(element, NamedUnits) and unit is None:
            unit = element
        else:
            return None
    return None if unit is None else _story(unit, yard, situation)


def _story(named: NamedUnits, yard: str | None, situation: Situation) -> Reading | None:
    reference = named.references[0]
    if len(named.references) != 1 or reference.to is not None:
        return None
    found = resolve([named], yard, situation)
    if len(found.places) == 1 and found.places[0].unit:
        place = found.places[0]
        home = place.yard if situation.yards else None
        return Reading(command=Command(CommandName.HISTORY, home, place.unit), yard=yard)
    if found.questions or reference.box is None:
        name = said(reference)
        unknown = Question(QuestionKind.NO_SUCH_UNIT, name, (name,))
        return Reading(questions=found.questions or (unknown,))
    having = yards_with_box(situation, reference.box, yard)
    return Reading(
        command=Command(CommandName.HISTORY, having[0].name, UnitName(reference.box)), yard=yard
    )
