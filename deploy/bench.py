#!/usr/bin/env python3
"""Measures Yardbell and prints tables: ``python3 deploy/bench.py delivery``."""

import os
import sys
from importlib import import_module
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from deploy.environment import enter  # noqa: E402 - found only by the path above

USAGE = """usage: python3 deploy/bench.py WHAT [NUMBER ...]
  recompute [UNITS ...]         all checks worked out anew (1000 10000 100000)
  replies [REPLIES] [CREWS]     answers over HTTP beside a bare bot's (100, 34 crews of 300 units)
  rush [PEOPLE]                 sending alone: one text to everybody (10000)
  mornings [CREWS ...]          mornings worked out and sent, all due at once (1 100 1000 10000)
  crews [CREWS ...]             replies by turns from so many crews (1 30 300 3000)
  idle [PEOPLE ...]             ticks with nothing due (1000 1000000)
  history [MESSAGES ...]        start-up, "due" and metrics after so many messages (0 1000000)
  modules                       modules and SQL statements on the way of one reply
  weight [STARTS]               memory and start-up beside a bare bot's (5)
  delivery                      replies, rush and weight, one after the other
  segments [UNITS ...]          SMS segments a morning takes, through a season (12 60 300)"""

USUAL = {
    "recompute": [1_000, 10_000, 100_000],
    "replies": [100, 34],
    "rush": [10_000],
    "mornings": [1, 100, 1_000, 10_000],
    "crews": [1, 30, 300, 3_000],
    "idle": [1_000, 1_000_000],
    "history": [0, 1_000_000],
    "modules": [],
    "weight": [5],
    "segments": [12, 60, 300],
}
"""The numbers of each, unless others are given."""

MEASURES = {
    "recompute": ("recompute", "recompute"),
    "replies": ("replies", "replies"),
    "rush": ("rush", "rush"),
    "mornings": ("mornings", "mornings"),
    "crews": ("by_turns", "replies_by_turns"),
    "idle": ("idle", "idle"),
    "history": ("history", "history"),
    "modules": ("reply_modules", "modules_of_reply"),
    "weight": ("weight", "weight"),
    "segments": ("segments", "segments_of_mornings"),
}
"""The module of each and the function in it that measures and prints."""

EACH = {"mornings", "crews", "idle", "history"}
"""Those that measure each number given, and no other."""

DELIVERY = ("replies", "rush", "weight")


def main(words: list[str]) -> int:
    """Run the benchmark that is asked for, in the environment of this checkout."""
    known = words[:1] == ["delivery"] or (words and words[0] in USUAL)
    if not known or not all(word.isdecimal() for word in words[1:]):
        print(USAGE, file=sys.stderr)
        return 2
    if not enter(__file__, words):
        return 2
    numbers = [int(word) for word in words[1:]]
    for what in [words[0]] if words[0] in USUAL else DELIVERY:
        usual = USUAL[what][len(numbers) :] if what not in EACH or not numbers else []
        _measure(what, [*numbers, *usual])
        print()
    return 0


def _measure(what: str, numbers: list[int]) -> None:
    print(f"load of the machine before: {os.getloadavg()[0]:.1f}", flush=True)
    # Loaded only here: each has parts of its own.
    module, name = MEASURES[what]
    getattr(import_module(f"deploy.benchmark.{module}"), name)(*numbers)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
