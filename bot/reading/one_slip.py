"""Whether a word was meant for another: one letter missing, too many, wrong, or two swapped."""

from itertools import takewhile


def is_one_slip(said: str, word: str) -> bool:
    """Tell whether ``said`` is ``word`` but for one slip of the finger at most.

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
