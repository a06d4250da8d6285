"""All phrases in one table, longest first, and the vocabulary that typos are measured against."""

from collections.abc import Hashable, Iterable, Iterator, Sequence
from functools import cache

from bot.reading.lexicon.colony_phrases import OF_COLONIES, VALUED
from bot.reading.lexicon.measures import (
    DOZEN,
    FRACTIONS,
    LETTER_WORDS,
    MAY_BE_NUMBERS,
    MEASURES,
    MONTHS,
    NUMBERS,
    POSITIONS,
    WEEKDAYS,
)
from bot.reading.lexicon.noise_words import ROLES
from bot.reading.lexicon.queen_phrases import OF_QUEENS, OF_STARTS
from bot.reading.lexicon.sense import AMBIGUOUS_WORDS, TWO_MEANINGS, PhraseRole, Sense
from scheduling.entry_kinds import EntryKind

_ONE = {**OF_QUEENS, **OF_STARTS, **OF_COLONIES}


def _with_plurals(phrases: tuple[str, ...]) -> tuple[str, ...]:
    """Add "queens dead" and "queens are dead" to "queen dead" and "queen is dead"."""
    many = (
        phrase.replace("queen ", "queens ", 1).replace(" is ", " are ").replace(" has ", " have ")
        for phrase in phrases
        if phrase.startswith("queen ") and not phrase.startswith("queen cell")
    )
    return tuple(dict.fromkeys((*phrases, *many)))


FINDINGS: dict[EntryKind, tuple[str, ...]] = {
    kind: _with_plurals(phrases) for kind, phrases in _ONE.items()
}
"""Kind of finding -> the phrases that mean it. Shorter phrases yield to longer ones."""


OTHER_WORDS = (
    "note", "notes", "till", "until", "til", "yesterday", "tomorrow", "ago", "last", "next",
    "grafted", "graft", "larvae", "larva", "old", "queens", "rest", "others",
    "thru", "through", "before",
)  # fmt: skip
"""Words that the scanner itself knows."""


def all_phrases() -> Iterator[tuple[str, Sense]]:
    """Give every phrase with its meaning, as the tables list them."""
    for sense, phrases in _meanings():
        yield from ((phrase, sense) for phrase in phrases)


def _meanings() -> Iterator[tuple[Sense, Iterable[str]]]:
    yield from ((Sense(role=role), phrases) for role, phrases in ROLES.items())
    yield from (
        (Sense(ambiguous=ambiguous), phrases) for ambiguous, phrases in AMBIGUOUS_WORDS.items()
    )
    yield from ((Sense(options=options), phrases) for options, phrases in TWO_MEANINGS.items())
    yield from ((Sense(kind=kind), phrases) for kind, phrases in FINDINGS.items())
    yield from ((Sense(kind=kind, value=value), phrases) for kind, value, phrases in VALUED)


@cache
def phrases() -> dict[str, list[tuple[tuple[str, ...], Sense]]]:
    """Give the phrases by their first word, the longest first."""
    table: dict[str, dict[tuple[str, ...], Sense]] = {}
    for phrase, sense in all_phrases():
        words = tuple(phrase.split())
        table.setdefault(words[0], {})[words] = sense
    return {
        first: sorted(found.items(), key=lambda item: -len(item[0]))
        for first, found in table.items()
    }


def phrase_at(words: Sequence[str]) -> tuple[Sense, int] | None:
    """Give the longest phrase that ``words`` begins with, and its length in words."""
    for phrase, sense in phrases().get(words[0], []):
        if tuple(words[: len(phrase)]) == phrase:
            return sense, len(phrase)
    return None


@cache
def vocabulary() -> dict[str, Hashable]:
    """Give every known word with what it means alone; words of one meaning share a value."""
    known: dict[str, Hashable] = {}
    for phrase, _ in all_phrases():
        known.update({word: ("word", word) for word in phrase.split()})
    for words in (MEASURES, NUMBERS, FRACTIONS, DOZEN, WEEKDAYS, MONTHS, POSITIONS, LETTER_WORDS):
        known.update({word: ("meaning", repr(value)) for word, value in words.items()})
    known.update({word: ("word", word) for word in (*OTHER_WORDS, *MAY_BE_NUMBERS)})
    known.update({phrase: sense for phrase, sense in all_phrases() if " " not in phrase})
    return known


def noise_words() -> frozenset[str]:
    """Give the words that may be dropped; no typo is taken for one of them."""
    small = (*ROLES[PhraseRole.NOISE], *ROLES[PhraseRole.REMARK])
    return frozenset(word for word in small if " " not in word)
