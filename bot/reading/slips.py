"""Slips of one or two letters, put right when only one meaning is near."""

from collections.abc import Collection, Hashable

from bot.reading.lexicon.noise_words import ORDINARY
from bot.reading.lexicon.phrase_table import noise_words, vocabulary
from bot.reading.lexicon.sense import Sense
from bot.reading.words import Form, Word
from scheduling.places import LETTERS

_GARBLED = "\N{REPLACEMENT CHARACTER}"
"""What stands for octets that were no letters."""

_SHORT = 5
"""Up to this many letters one slip is allowed, above it two."""
_TINY = 3
"""Up to this many letters only a swapped or a missing letter is put right."""


def mend(words: list[Word], names: Collection[str]) -> list[Word]:
    """Put slips right; words with no single near meaning stay as they are.

    Nothing is put right in a text that arrived garbled: its letters may be anything's.

    ``names`` are words that are right though the lexicon does not know them: yards, say.
    """
    if any(word.text == _GARBLED for word in words):
        return words
    known = vocabulary()
    mended: list[Word] = []
    for word in words:
        if word.form is not Form.WORD or word.text in known or word.text in names:
            mended.append(word)
        elif mended and mended[-1].form is Form.NUMBER and mended[-1].end == word.start:
            mended.extend(_run_on(mended.pop(), word))
        else:
            text = nearest(word.text, names) or word.text
            mended.append(Word(word.form, text, word.start, word.end))
    return mended


def _run_on(number: Word, word: Word) -> tuple[Word, ...]:
    """Read "4aeggs" as 4a and eggs; any other word run on to a number is not put right.

    Whoever writes "5duac" does not speak of box 5, but of a unit that cannot be.
    """
    if not number.text.isdigit():
        return number, word
    letter, rest = word.text[0], word.text[1:]
    if letter in LETTERS and rest in vocabulary():
        middle = word.start + 1
        unit = Word(Form.GLUED, number.text + letter, number.start, middle)
        return unit, Word(Form.WORD, rest, middle, word.end)
    return (Word(Form.GLUED, number.text + word.text, number.start, word.end),)


def nearest(slip: str, names: Collection[str] = ()) -> str | None:
    """Give the one lexicon word or name that ``slip`` is near to, or None.

    Distance counts a missing, an added, a wrong or two swapped letters as one.
    """
    if slip in ORDINARY or len(slip) < _TINY:
        return None
    found = _near(slip, names)
    if not found:
        return None
    least = min(distance for _, distance in found.values())
    words = {meaning: word for meaning, (word, near) in found.items() if near == least}
    if len(words) > 1:
        return None
    word = next(iter(words.values()))
    return word if _may_slip(slip, word) and word not in noise_words() else None


def _near(slip: str, names: Collection[str]) -> dict[Hashable, tuple[str, int]]:
    # Loaded only for a word that nobody knows, since it weighs as much as all of the reading.
    from rapidfuzz.distance import OSA
    from rapidfuzz.process import extract_iter

    allowed = 1 if len(slip) <= _SHORT else 2
    found: dict[Hashable, tuple[str, int]] = {}
    known = vocabulary()
    near = extract_iter(slip, (*known, *names), scorer=OSA.distance, score_cutoff=allowed)
    for word, distance, _ in near:
        meaning: Hashable = ("name", word) if word in names else known[word]
        if not (_may_slip(slip, word) or _tells(meaning)):
            continue
        if meaning not in found or distance < found[meaning][1]:
            found[meaning] = (word, distance)
    return found


def _tells(meaning: Hashable) -> bool:
    """Say whether a word is a finding by itself: such a word rivals any other ("sed")."""
    return isinstance(meaning, Sense) and (meaning.kind or meaning.hint) is not None


def _may_slip(slip: str, word: str) -> bool:
    """Say whether so short a word may be a slip of that one at all."""
    if len(word) < _TINY:
        return False
    if len(slip) > _TINY:
        return True
    return len(word) > len(slip) or sorted(word) == sorted(slip)
