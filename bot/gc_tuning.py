"""How often the garbage collector of a running program runs."""

import gc

from sqlalchemy import Engine

from scheduling.records.engine import write_queue_of

YOUNG_OBJECTS = 3_000
"""Objects made and kept before the young ones are looked at, so that each look takes a moment."""

YOUNG_LOOKS = 10
"""Looks at the youngest before those are looked at that lived through one."""

NO_OLD_LOOKS = 1_000_000
"""More looks than a year has: the old are looked at by ``collect_all`` alone."""


def collect_rarely() -> None:
    """Look for garbage among young objects alone, and never among what was loaded.

    A look at all objects takes 100 to 400 ms with the crews that are cached, and came in the midst
    of transactions while everybody else waited to write. Values of a calendar point at no value
    that points back, so they go when nobody needs them, without a look.
    Called once, when everything is loaded.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(YOUNG_OBJECTS, YOUNG_LOOKS, NO_OLD_LOOKS)


def collect_all(engine: Engine) -> None:
    """Look for garbage among all objects, while no transaction of this process holds SQLite up."""
    with write_queue_of(engine).turn():
        gc.collect()
