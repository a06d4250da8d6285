"""Flow and dearth at a yard, as the keeper told of them."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from scheduling.entries import Entry
from scheduling.trade import table
from scheduling.values import Forage, YardForage


@dataclass(frozen=True)
class ForageWords:
    """The keeper's words on forage, oldest first; each holds until the next, or for two weeks."""

    words: tuple[tuple[date, Forage], ...] = ()

    def on(self, day: date) -> Forage | None:
        """Give what holds on a date, None where nothing was said or it was too long ago."""
        if not self.words:
            return None
        said = [(since, forage) for since, forage in self.words if since <= day]
        if not said or day >= table.FORAGE_WORD_HOLDS.after(said[-1][0]):
            return None
        return said[-1][1]


def forage_words(entries: Iterable[Entry]) -> ForageWords:
    """Collect the words on forage from a unit's entries, which are sorted by date."""
    said = [(e.on, e.value.forage) for e in entries if isinstance(e.value, YardForage)]
    return ForageWords(tuple(said)) if said else NO_WORDS


NO_WORDS = ForageWords()
