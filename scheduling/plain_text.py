"""Text as it can be stored and safely shown: without letters that nobody sees, and that do harm.

The categories are those of the Unicode Character Database (UAX #44), as Python has them.
"""

import re
import unicodedata

_KEPT = frozenset("\n\r\t")
_JOINERS = frozenset("\u200c\u200d")
"""They shape letters of some scripts, and pictures made of several."""

_IDLE_JOINERS = re.compile("(?<![^\\x00-\\x7f])[\u200c\u200d]+|[\u200c\u200d]+(?![^\\x00-\\x7f])")
"""Joiners with nothing to join on one side."""

_BLANK = frozenset("\u00ad\u034f\u115f\u1160\u17b4\u17b5\u2800\u3164\uffa0")
"""What is shown as nothing, though it is neither a space nor of a category that says so."""

_MAY_BE_UNSEEN = re.compile(r"[^ -~\n]")
"""Most texts hold none of these, and are as they should be."""


def storable(text: str) -> str:
    """Give a text as it can be stored, whatever a channel made of it, its lines as of one system.

    Half a surrogate pair, which no encoding takes, becomes U+FFFD. Control characters go, and
    marks that turn the direction of writing or have no width; line ends and tabs stay.
    """
    return without_controls(text.replace("\r\n", "\n").replace("\r", "\n"))


def without_controls(text: str) -> str:
    """Give a text as ``storable`` does, with its line ends as they are."""
    if not _MAY_BE_UNSEEN.search(text):
        return text
    return _IDLE_JOINERS.sub("", "".join(_stored(letter) for letter in text))


def seen(text: str) -> str:
    """Give a text, such as a name, in one line and without anything that nobody sees."""
    letters = (c for c in storable(text) if c not in _JOINERS and not _is_selector(c))
    return " ".join("".join(letters).split())


def _stored(letter: str) -> str:
    kind = unicodedata.category(letter)
    if letter in _KEPT or letter in _JOINERS:
        return letter
    if kind == "Cs":
        return "\ufffd"
    if letter.isspace() and kind != "Zs":
        return " "
    return "" if kind in ("Cc", "Cf") or letter in _BLANK else letter


def _is_selector(letter: str) -> bool:
    """Tell a variation selector, which changes the look of the letter before it."""
    return "\ufe00" <= letter <= "\ufe0f" or "\U000e0100" <= letter <= "\U000e01ef"
