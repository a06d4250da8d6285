"""A check with the days on which a visit serves it, and what each of them is worth."""

from dataclasses import dataclass
from datetime import date

from scheduling.checks.check import Check


@dataclass(frozen=True)
class Errand:
    """A check that visits may serve.

    Attributes:
        check: what is to be done, and where.
        days: the dates on which a visit serves it, earliest first; the yard's other open days
            lie before the first or after the last of them.
        per_mille: the worth of each of those dates in thousandths. It rises to one peak, which
            may last for days, and falls after it.
        must: it has to be served on one of them; otherwise it is done where a visit happens to
            be and can wait.

    Raises:
        ValueError: the days are out of order, or the worth has two peaks or none for a day.

    """

    check: Check
    days: tuple[date, ...]
    per_mille: tuple[int, ...]
    must: bool = True

    def __post_init__(self) -> None:
        if len(self.days) != len(self.per_mille):
            raise ValueError("every day has its worth")
        if list(self.days) != sorted(set(self.days)):
            raise ValueError("the days of an errand stand in order, each once")
        if not _single_peaked(self.per_mille):
            raise ValueError(f"worth rises to one peak and falls after it, not {self.per_mille}")

    @property
    def yard(self) -> str:
        """The name of its yard."""
        return self.check.place.yard

    @property
    def peak(self) -> date:
        """The first date of the highest worth."""
        return self.days[self.per_mille.index(max(self.per_mille))]

    def worth(self, day: date) -> int:
        """Give the worth of a date in thousandths; 0 where a visit does not serve it."""
        return dict(zip(self.days, self.per_mille, strict=True)).get(day, 0)


def _single_peaked(worth: tuple[int, ...]) -> bool:
    if not worth:
        return True
    top = worth.index(max(worth))
    up, down = worth[: top + 1], worth[top:]
    return list(up) == sorted(up) and list(down) == sorted(down, reverse=True)
