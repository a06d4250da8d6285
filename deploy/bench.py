#!/usr/bin/env python3
"""Measures Yardbell and prints a table: ``python3 deploy/bench.py recompute`` or ``delivery``."""

import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from deploy.checkout import Checkout  # noqa: E402 - found only by the path above


def main(words: list[str]) -> int:
    """Run the benchmark that is asked for, in the environment of this checkout."""
    known = words[:1] in (["recompute"], ["delivery"])
    if not known or not all(word.isdecimal() for word in words[1:]):
        print(
            "usage: python3 deploy/bench.py recompute [UNITS ...] | delivery [REMINDERS]",
            file=sys.stderr,
        )
        return 2
    python = Checkout(ROOT).program("python")
    if Path(sys.prefix).resolve() != Checkout(ROOT).venv.resolve():
        os.execv(python, [str(python), __file__, *words])
    if words[0] == "delivery":
        from deploy.benchmark.job_for_each_reminder import delivery

        delivery(int((words[1:] or ["10000"])[0]))
        return 0
    from deploy.benchmark.recompute import recompute

    recompute([int(word) for word in words[1:]] or [1_000, 10_000, 100_000])
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
