"""How often the garbage collector of a running program runs."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager

NEW_OBJECTS = 200_000
"""Objects made and kept before the next look: what some five large crews' calendars are made of."""


@contextmanager
def uncollected() -> Iterator[None]:
    """Look for no garbage within the block, such as while loading, which makes hardly any.

    What is loaded stays; looking through all of it time and again is a fifth of the start.
    """
    collects = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collects:
            gc.enable()


def collect_rarely() -> None:
    """Look for garbage once in some calendars, not fifty times each, nor among what was loaded.

    Values of a calendar point at no value that points back, so they go when nobody needs them;
    a look for rings among them finds none, and took a tenth of the time even at once a calendar.
    Called once, when everything is loaded.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(NEW_OBJECTS)
