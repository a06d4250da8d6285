"""The words that are no finding, and all phrases in one table, with the vocabulary they make."""

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
from bot.reading.lexicon.queen_phrases import OF_QUEENS, OF_STARTS
from bot.reading.lexicon.sense import AMBIGUOUS_WORDS, TWO_MEANINGS, PhraseRole, Sense
from scheduling.entry_kinds import EntryKind

CHATTER: tuple[str, ...] = (
    "good morning", "good afternoon", "good evening", "good day", "good night", "morning all",
    "lovely morning", "beautiful morning", "lovely morning here", "what a day", "hi there",
    "hello there", "hey there", "hi all", "dear all", "hello all", "hey all", "all right",
    "good as gold", "could you", "would you", "can you", "next is", "next up", "moving on to",
    "moving on", "on to", "over to", "hiya", "howdy", "yo", "dear", "mate", "folks", "guys",
    "cheers", "ta", "many thanks", "thanks a lot", "pls", "plz", "thank you very much", "tks",
    "ty", "kk", "k", "lol", "lmao", "haha", "hahaha", "hehe", "smh", "omg", "yay", "wow", "woohoo",
    "hooray", "ugh", "argh", "dang", "damn", "gosh", "cool", "great", "brilliant", "awesome",
    "sweet", "perfect", "sure thing", "got it", "will do thanks", "no problem", "np", "roger",
    "noted", "understood", "alright", "right then", "bye", "goodbye", "see you", "great news",
    "good news", "bad news", "sadly", "unfortunately", "happily", "afraid", "i am afraid", "alas",
    "sorry to say", "sad to say", "pleased to say", "happy to say", "glad to say",
    "happy to report", "i am pleased to say", "i am happy to say", "i am sorry to say",
    "i am glad to say", "pleased to report", "am", "had a look", "i had a look", "took a look",
    "had a peek", "just had a look", "have had a look", "as expected", "as usual", "of course",
    "for sure", "at last", "thank goodness", "thank god", "bless her", "poor thing", "poor things",
    "poor girl", "poor girls", "poor old girl", "poor lass", "just checked", "just looked",
    "just opened", "went through", "been through", "by the way", "btw", "fyi", "ps",
    "weather permitting", "what a shame", "such a shame", "shame", "too bad", "oh", "oh well",
    "ah", "ahh", "hm", "hmm", "er", "um", "erm", "sigh",
)  # fmt: skip
"""May stand anywhere without changing what is reported."""

IDLE_REMARKS: tuple[str, ...] = (
    "nothing to report", "nothing new", "nothing special", "nothing else", "nothing more", "off",
    "nothing much", "nothing to see", "nothing unusual", "no change", "no changes", "no news",
    "a beauty", "what a beauty", "beauty", "gorgeous", "huge", "she huge", "fat", "large", "big",
    "nice and big", "lovely big", "long", "dark", "golden", "good looking", "everywhere",
    "all over", "all over the place", "lots of them", "loads of them", "plenty of them", "loads",
    "loads of", "tons of", "tons", "heaps of", "a lot of", "wax moth", "wax moths", "moth",
    "moths", "wax moth everywhere", "by wasps", "by the wasps", "wasps", "the wasps", "bees calm",
    "calm", "bees happy", "happy", "busy", "bees busy", "doing fine", "doing well", "doing great",
    "looking good", "looking great", "looking fine", "looks good", "looks great", "looks fine",
    "all good", "all fine", "all well", "fine", "great stuff", "strong", "pretty", "windy",
    "sunny", "warm", "cloudy", "overcast", "breezy", "day", "super", "in good shape",
    "nice and strong", "properly", "nicely", "beautifully", "this time", "so far", "as of now",
    "at the moment", "right now", "healthy", "quickly", "slowly", "overnight", "early",
    "nice work", "well done", "boom", "left in there", "as well today", "to be seen",
)  # fmt: skip
"""Say something, but nothing to record; beside a finding they may be left out."""


ROLES: dict[PhraseRole, tuple[str, ...]] = {
    PhraseRole.NOISE: (
        "the", "a", "an", "in", "on", "of", "at", "is", "are", "was", "were", "has", "have", "had",
        "it", "its", "she", "her", "i", "we", "they", "them", "there", "here", "this", "that",
        "with", "from", "into", "for", "to", "today", "now", "just", "each", "apiece", "per",
        "my", "our", "some", "did", "do", "does", "been", "be", "as", "by", "hi", "hello", "hey",
        "please", "thanks", "thank you", "thx", "unit", "units", "box", "boxes", "nuc", "nucs",
        "me", "so", "hive", "side", "compartment", "i have", "she has", "yard", "his", "number",
        "all day", "inside", "both", "one in", "all day long", *CHATTER,
    ),
    PhraseRole.REMARK: (
        "saw", "seen", "see", "found", "find", "spotted", "got", "checked", "looked", "look",
        "opened", "ok", "okay", "yes", "yep", "comb", "colony", "old", "nice", "good", "finally",
        "already", "still", "yet", "any", "sign", "signs", "sign of", "signs of", "any sign of",
        "evidence of", "well", "up", "lots of", "plenty of", "lots", "few", "a few", "done", "new",
        "report", "update", "worker", "really", "very", "also found", "bit", "lovely", "young",
        "one", "again", "alone", "having", "present", "visible", "spied", "showing", "mated",
        "marked", "running", "running around", "walking", "walking about", "opened up", "in it",
        "in them", "in there", "check out", "going well", "looking", "starting", "clearly",
        "definitely", "only", "just did", "i did", "we did", "back", "certainly", "also got",
        *IDLE_REMARKS,
    ),
    PhraseRole.NEGATION: (
        "no", "not", "without", "never", "no sign of", "no signs of", "not any",
        "not see", "not find", "no evidence of", "not a", "not one", "not been",
        "not see any", "not find any", "not seeing", "not any sign of", "not see any sign of",
        "failed to see", "could not find", "could not see", "can not find",
        "can not see", "did not see", "did not find",
        "lacking", "zero", "yet to be", "nor", "not seen any",
    ),
    PhraseRole.NOT_SEEN: (
        "not seen", "not found", "not there", "not present", "unseen", "not spotted",
    ),
    PhraseRole.OR: ("or",),
    PhraseRole.EXCEPT: (
        "except", "except for", "besides", "apart from", "excluding", "other than", "but not",
        "bar", "minus", "excl", "save for", "all but", "aside from", "not counting", "leaving out",
    ),
    PhraseRole.MAYBE_EXCEPT: ("but",),
    PhraseRole.SAME: (
        "same", "ditto", "same again", "same as before", "same thing", "the same", "same for",
        "same story", "so is", "so are", "so has", "so have", "so does", "same here", "same with",
        "idem",
    ),
    PhraseRole.TOO: ("too", "also", "as well", "likewise"),
    PhraseRole.CORRECTION: (
        "oops", "correction", "sorry", "i meant", "scratch that", "my mistake", "wrong",
        "whoops", "make that", "should be", "should have been", "meant", "i mean", "actually",
        "my bad", "fix", "mistake", "no wait", "wait no", "i meant to say", "meant to say",
        "i should have said", "no sorry", "sorry no", "typo", "ignore that", "strike that",
        "no hang on", "i was wrong", "got that wrong", "i got that wrong", "correcting",
    ),
    PhraseRole.EVERYTHING: (
        "all", "everything", "all units", "every unit", "all of them", "the lot", "all boxes",
        "every box", "everyone", "everybody", "all the units", "the whole yard", "whole yard",
        "all the boxes",
    ),
    PhraseRole.SEPARATOR: ("and", "then", "while", "whereas", "plus"),
}  # fmt: skip
"""Role -> its phrases."""


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
