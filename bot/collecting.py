"""How often a running program looks for garbage."""

import gc

NEW_OBJECTS = 50_000
"""Objects made and kept before the next look: about what one large crew's calendar is made of."""


def collect_rarely() -> None:
    """Look for garbage once a calendar and not fifty times, and never among what was loaded.

    Values of a calendar point at no value that points back, so they go when nobody needs them;
    a look for rings among them finds none, and took a tenth of the time. Called once, when
    everything is loaded.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(NEW_OBJECTS)
