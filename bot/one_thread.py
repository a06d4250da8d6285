"""Arrays reckoned without threads of their own."""

import os


def arrays_on_one_thread() -> None:
    """Let arrays start no threads; to be called before anything loads them.

    Once loaded they keep a thread for each further core, which first turns idly for as long as a
    crew's calendar takes, and takes a core from another worker. Our sums are too short for it.
    Whoever set a number of threads in the surroundings has it.
    """
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
