#!/usr/bin/env python3
"""Proves that nothing is lost, and that tests notice: ``python3 deploy/prove.py crash``."""

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from deploy.environment import enter  # noqa: E402 - found only by the path above

USAGE = """usage: python3 deploy/prove.py PROOF [COUNT] [SEED]
  crash     kill -9 COUNT times (300) in a season, on SQLite and on PostgreSQL with three workers
  rush      COUNT planned messages (10000) and two workers, on both
  together  two people at the same moment COUNT times (1000), on both
  fuzz      COUNT generated texts (1000000) through reading and the conversation
  container the container file's steps, and the image where there is a builder
  mutations the first COUNT (all) one-line changes of deploy/proof/mutations: a test must fail"""


def main(words: list[str]) -> int:
    """Run the proof that is asked for, in the environment of this checkout."""
    if not words or not all(word.isdecimal() for word in words[1:]) or len(words) > 3:
        print(USAGE, file=sys.stderr)
        return 2
    if not enter(__file__, words):
        return 2
    from deploy.proofs import PROOFS

    if words[0] not in PROOFS:
        print(USAGE, file=sys.stderr)
        return 2
    proof, usual = PROOFS[words[0]]
    counts = [int(word) for word in words[1:]]
    return 0 if proof(counts[0] if counts else usual, counts[1] if counts[1:] else 1) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
