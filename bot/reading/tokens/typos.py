"""Typos of one or two letters, put right when only one meaning is near."""

from collections.abc import Collection, Hashable
from itertools import takewhile

from bot.reading.lexicon.phrase_table import noise_words, vocabulary
from bot.reading.lexicon.sense import Sense
from bot.reading.tokens.token import Token, TokenForm
from scheduling.places import LETTERS

_GARBLED = "\N{REPLACEMENT CHARACTER}"
"""What stands for octets that were no letters."""

_SHORT = 5
"""Up to this many letters one typo is allowed, above it two."""
_TINY = 3
"""Up to this many letters only a swapped or a missing letter is put right."""


ORDINARY = frozenset(
    {
        "almost", "angry", "ant", "ants", "bad", "ball", "bed", "bee", "bell", "big", "blue",
        "bold", "bone", "bring", "broke", "broken", "buds", "bug", "bunny", "call", "calm",
        "cat", "clean", "clear", "clipped", "close", "closed", "cloud", "cold", "cone",
        "cool", "crap", "crowd", "cull", "dad", "deaf", "deal", "dealt", "dear", "den", "dog",
        "done", "drab", "drain", "drone", "dude", "dug", "duo", "egos", "egret", "fad", "fee",
        "fell", "flaying", "floor", "fog", "fold", "fool", "foot", "frames", "funny", "gate",
        "gene", "gold", "grab", "grain", "green", "guess", "had", "half-way", "hall", "hat",
        "head", "healed", "heap", "hear", "heat", "heavy", "hen", "hold", "hone", "honest",
        "hood", "hopefully", "hornet", "hot", "hung", "if", "keep", "kept", "large", "last",
        "layer", "layers", "lead", "led", "left", "lid", "lift", "list", "load", "locked",
        "lone", "lose", "loss", "lost", "loud", "lying", "mad", "main", "mark", "marked",
        "may", "maybe", "mean", "men", "mice", "might", "mite", "mites", "mold", "money",
        "mood", "moth", "moths", "mouse", "mud", "must", "nearly", "need", "needs", "next",
        "ought", "pain", "painted", "paying", "pen", "perhaps", "playing", "pool", "possibly",
        "probably", "queer", "queue", "quick", "quiet", "quite", "rains", "rang", "read",
        "red", "rib", "ring", "road", "rob", "robin", "rood", "roof", "rub", "sad", "saying",
        "sealer", "sell", "should", "small", "soon", "sorted", "sport", "spotless", "store",
        "storm", "stormy", "story", "strap", "strong", "sunny", "sure", "tall", "tell",
        "temper", "tempered", "ten", "think", "told", "tone", "tool", "track", "train",
        "tramp", "tree", "trip", "unless", "unsure", "varroa", "wall", "want", "wants",
        "wasp", "wasps", "water", "wax", "weak", "well", "wet", "white", "will", "wing",
        "wings", "wood", "would", "wrap", "yellow", "zone",
    }
)  # fmt: skip
"""Ordinary words that lie near one of the lexicon and are never taken for a typo of it.

Among them the words of doubt and of wishes: what may be or should be was not seen.
"""


def correct_typos(words: list[Token], names: Collection[str]) -> list[Token]:
    """Put typos right; words with no single near meaning stay as they are.

    Nothing is put right in a text that arrived garbled: its letters may be anything's.

    ``names`` are words that are right though the lexicon does not know them: yards, say.
    """
    if any(word.text == _GARBLED for word in words):
        return words
    known = vocabulary()
    corrected: list[Token] = []
    for word in words:
        if word.form is not TokenForm.WORD or word.text in known or word.text in names:
            corrected.append(word)
        elif (
            corrected and corrected[-1].form is TokenForm.NUMBER and corrected[-1].end == word.start
        ):
            corrected.extend(_run_on(corrected.pop(), word))
        else:
            text = _nearest(word.text, names) or word.text
            corrected.append(Token(word.form, text, word.start, word.end))
    return corrected


def _run_on(number: Token, word: Token) -> tuple[Token, ...]:
    """Read "4aeggs" as 4a and eggs; any other word run on to a number is not put right.

    Whoever writes "5duac" does not speak of box 5, but of a unit that cannot be.
    """
    if not number.text.isdecimal():
        return number, word
    letter, rest = word.text[0], word.text[1:]
    if letter in LETTERS and rest in vocabulary():
        middle = word.start + 1
        unit = Token(TokenForm.GLUED, number.text + letter, number.start, middle)
        return unit, Token(TokenForm.WORD, rest, middle, word.end)
    return (Token(TokenForm.GLUED, number.text + word.text, number.start, word.end),)


def _nearest(typo: str, names: Collection[str] = ()) -> str | None:
    """Give the one lexicon word or name that ``typo`` is near to, or None.

    Distance counts a missing, an added, a wrong or two swapped letters as one.
    """
    if typo in ORDINARY or len(typo) < _TINY:
        return None
    found = _near(typo, names)
    if not found:
        return None
    least = min(distance for _, distance in found.values())
    words = {meaning: word for meaning, (word, near) in found.items() if near == least}
    if len(words) > 1:
        return None
    word = next(iter(words.values()))
    return word if _may_be_typo(typo, word) and word not in noise_words() else None


def _near(typo: str, names: Collection[str]) -> dict[Hashable, tuple[str, int]]:
    # Loaded only for a word that nobody knows, since it weighs as much as all of the reading.
    from rapidfuzz.distance import OSA
    from rapidfuzz.process import extract_iter

    allowed = 1 if len(typo) <= _SHORT else 2
    found: dict[Hashable, tuple[str, int]] = {}
    known = vocabulary()
    near = extract_iter(typo, (*known, *names), scorer=OSA.distance, score_cutoff=allowed)
    for word, distance, _ in near:
        meaning: Hashable = ("name", word) if word in names else known[word]
        if not (_may_be_typo(typo, word) or _tells(meaning)):
            continue
        if meaning not in found or distance < found[meaning][1]:
            found[meaning] = (word, distance)
    return found


def _tells(meaning: Hashable) -> bool:
    """Say whether a word is a finding by itself: such a word rivals any other ("sed")."""
    return isinstance(meaning, Sense) and (meaning.kind or meaning.ambiguous) is not None


def _may_be_typo(typo: str, word: str) -> bool:
    """Say whether so short a word may be a typo of that one at all."""
    if len(word) < _TINY:
        return False
    if len(typo) > _TINY:
        return True
    return len(word) > len(typo) or sorted(word) == sorted(typo)


def is_one_typo(said: str, word: str) -> bool:
    """Tell whether ``said`` is ``word`` but for one typo at most.

    The library that measures any distance weighs too much to be loaded for this question, which
    every message asks.
    """
    pairs = zip(said, word, strict=False)
    same = sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], pairs))
    told, meant = said[same:], word[same:]
    wrong = told[1:] == meant[1:]
    too_many, missing = told[1:] == meant, told == meant[1:]
    swapped = told[:2] == meant[1::-1] and told[2:] == meant[2:]
    return wrong or too_many or missing or swapped
