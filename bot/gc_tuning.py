"""How often the garbage collector of a running program runs."""

import gc

NEW_OBJECTS = 200_000
"""Objects made and kept before the next look: what some five large crews' calendars are made of."""


def collect_rarely() -> None:
    """Look for garbage once in some calendars, not fifty times each, nor among what was loaded.

    Values of a calendar point at no value that points back, so they go when nobody needs them;
    a look for rings among them finds none, and takes a fifth of a cold crew's reply.
    Called once, when everything is loaded.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(NEW_OBJECTS)
