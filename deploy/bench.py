#!/usr/bin/env python3
"""Measures Yardbell and prints a table: ``python3 deploy/bench.py recompute [UNITS ...]``."""

import os
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from deploy.checkout import Checkout  # noqa: E402 - found only by the path above


def main(words: list[str]) -> int:
    """Run the benchmark that is asked for, in the environment of this checkout."""
    if not words or words[0] != "recompute" or not all(word.isdecimal() for word in words[1:]):
        print("usage: python3 deploy/bench.py recompute [UNITS ...]", file=sys.stderr)
        return 2
    python = Checkout(ROOT).program("python")
    if Path(sys.prefix).resolve() != Checkout(ROOT).venv.resolve():
        os.execv(python, [str(python), __file__, *words])
    from deploy.benchmark.recompute import recompute

    recompute([int(word) for word in words[1:]] or [1_000, 10_000, 100_000])
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
