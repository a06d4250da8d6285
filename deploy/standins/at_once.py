"""Workers that begin at the same moment, each with sessions of its own."""

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier
from typing import TypeVar

Given = TypeVar("Given")


def at_once(*work: Callable[[], Given]) -> list[Given]:
    """What each gives, all begun at the same moment; an error of one is raised."""
    ready = Barrier(len(work))

    def begin(one: Callable[[], Given]) -> Given:
        ready.wait()
        return one()

    with ThreadPoolExecutor(len(work)) as threads:
        return list(threads.map(begin, work))


def rounds(turns: Sequence[Sequence[Callable[[], object]]]) -> None:
    """Work in rounds, the parts of each begun at the same moment."""
    ready = Barrier(len(turns[0]))

    def begin(parts: Sequence[Callable[[], object]]) -> None:
        for part in parts:
            ready.wait(60)
            part()

    with ThreadPoolExecutor(len(turns[0])) as threads:
        list(threads.map(begin, list(zip(*turns, strict=True))))
