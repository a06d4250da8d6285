"""Counters of what this process has done since it started; ``bot.web.metrics`` exports them."""

from collections import Counter
from enum import StrEnum
from threading import Lock


class Counted(StrEnum):
    """What is counted; the value says what one more of it means."""

    MESSAGES_IN = "Messages in that were worked through, by channel."
    READINGS = "Texts read, by what came of them."
    SENDS = "Tries to send a message, by channel and result."
    EXPIRED = "Messages out that were no longer of use when they could have been sent."
    MORNINGS = "People whose morning was looked at."
    TICKS = "Ticks that ended, by name and how."
    POLLS = "Fetches that a carrier answered, by channel."


Key = tuple[Counted, tuple[tuple[str, str], ...]]
"""What was counted, and its labels."""

_counts: Counter[Key] = Counter()
_lock = Lock()


def count(what: Counted, number: int = 1, **labels: str) -> None:
    """Count; safe from any thread. Labels are of few values each, and never a person's."""
    with _lock:
        _counts[what, tuple(sorted(labels.items()))] += number


def all_counts() -> dict[Key, int]:
    """Give all counts so far."""
    with _lock:
        return dict(_counts)
