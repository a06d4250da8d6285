"""The spans in which queens laid in a unit, read off its entries."""

from collections.abc import Iterable
from datetime import date

from scheduling.entries import Entry
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind, QueenNews
from scheduling.trade import table

_LAYS_NO_MORE = frozenset({QueenNews.NO_EGGS, QueenNews.LOST, QueenNews.ANOTHER})

Span = tuple[date, date | None]
"""First and last day on which a queen laid; no last day while she still does."""


def laying_spans(entries: Iterable[Entry], expected: date | None = None) -> tuple[Span, ...]:
    """Tell when queens laid, as far as eggs or sealed brood were seen.

    ``expected`` is the day on which the present queen, not seen to lay yet, should begin.
    """
    spans: list[Span] = []
    since: date | None = None
    for entry in entries:
        news = ENTRY_FACTS[entry.kind].queen
        if news is QueenNews.LAYS:
            since = since or _first_eggs(entry)
        elif news in _LAYS_NO_MORE and since is not None:
            spans.append((since, max(since, entry.on)))
            since = None
    began = since or expected
    return (*spans, (began, None)) if began is not None else tuple(spans)


def _first_eggs(entry: Entry) -> date:
    """Give the day of the eggs seen; sealed brood was laid at least nine days before."""
    if entry.kind is EntryKind.EGGS:
        return entry.on
    return table.WORKER_OPEN_BROOD.before(entry.on)
