"""Draws the fitted stages beside the published ranges: ``.venv/bin/python deploy/fits.py``.

It draws the picture in the developers' document and prints the table beside it; both come from
the trade table and the walk's own code.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from html import escape
from pathlib import Path

from scheduling.trade import table
from scheduling.trade.constant import Constant
from scheduling.walk.stages import PUBLISHED, Spread, log_normal

PICTURE = Path(__file__).resolve().parent.parent / "fixtures" / "walk" / "stages.svg"

HEAD = (
    "Stage | published low, centre, high | fitted mean | middle 95 % | in the range | Read in",
    "---|---|---|---|---|---",
)


@dataclass(frozen=True)
class Fit:
    """A stage as published and as the walk has it, in days; ``fitted`` to it or held against it."""

    name: str
    figure: Constant
    spread: Spread
    fitted: bool = True

    @property
    def inside(self) -> float:
        """The share of queens within the published range."""
        low, high = self.figure.low, self.figure.high
        return sum(chance for day, chance in days_of(self.spread) if low <= day <= high)

    def quantile(self, share: float) -> int:
        """The first day by which at least that share is through."""
        through = 0.0
        for day, chance in days_of(self.spread):
            through += chance
            if through >= share - 1e-9:
                return day
        return self.spread.last


def days_of(spread: Spread) -> Iterator[tuple[int, float]]:
    """Each day with its chance."""
    return ((spread.first + n, chance) for n, chance in enumerate(spread.chances))


def fits() -> tuple[Fit, ...]:
    """Every stage of the walk, then the two sums of stages that others have measured."""
    mating = added(PUBLISHED.maturing, waiting())
    return (
        _stage("graft to emergence", table.EMERGENCE_FROM_GRAFT),
        _stage("own queen to emergence", table.OWN_EMERGENCE),
        Fit("emergence to mature", table.MATURE_FROM_EMERGENCE, PUBLISHED.maturing),
        Fit("mating to first egg", table.FIRST_EGG_FROM_MATING, PUBLISHED.to_first_egg),
        Fit("emergence to mating", table.MATING_AGE, mating, fitted=False),
        Fit(
            "emergence to first egg",
            table.FIRST_EGG_FROM_EMERGENCE,
            added(mating, PUBLISHED.to_first_egg),
        ),
    )


def _stage(name: str, figure: Constant) -> Fit:
    return Fit(name, figure, log_normal(figure))


def waiting(days: int = 40) -> Spread:
    """Flying days that a mature virgin lets go by, the same chance on each."""
    chance = PUBLISHED.flight_chance
    return Spread(0, tuple(chance * (1 - chance) ** day for day in range(days)))


def added(one: Spread, other: Spread) -> Spread:
    """The spread of one stage after the other."""
    chances = [0.0] * (len(one.chances) + len(other.chances) - 1)
    for a, first in enumerate(one.chances):
        for b, second in enumerate(other.chances):
            chances[a + b] += first * second
    return Spread(one.first + other.first, tuple(chances))


def rows(shown: Sequence[Fit]) -> list[str]:
    """The table, a line for each stage."""
    return [*HEAD, *(_row(fit) for fit in shown)]


def _row(fit: Fit) -> str:
    figure = fit.figure
    name = fit.name if fit.fitted else f"{fit.name} (not fitted to)"
    published = f"{figure.low:g}, {figure.value:g}, {figure.high:g}"
    middle = f"{fit.quantile(0.025)} to {fit.quantile(0.975)}"
    read = "; ".join(dict.fromkeys(source.author for source in figure.sources))
    return " | ".join(
        [name, published, f"{fit.spread.mean:.1f}", middle, f"{fit.inside:.0%}", read]
    )


WIDTH, ROW, LEFT, BARS, DAY = 640, 74, 170, 44, 18
FIRST, LAST = 0, 25


def picture(shown: Sequence[Fit]) -> str:
    """One strip for each stage: the published range shaded, its centre a line, the fit as bars."""
    height = ROW * len(shown) + 40
    strips = [_strip(fit, ROW * number + 14) for number, fit in enumerate(shown)]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{height}" '
        f'font-family="sans-serif" font-size="12">\n'
        f'<rect width="{WIDTH}" height="{height}" fill="#f4f1ea"/>\n'
        + "\n".join([*strips, _axis(height - 22)])
        + "\n</svg>\n"
    )


def _strip(fit: Fit, top: int) -> str:
    base = top + BARS
    low, high = _x(fit.figure.low) - DAY / 2, _x(fit.figure.high) + DAY / 2
    centre = _x(fit.figure.value)
    bars = [_bar(day, chance, base) for day, chance in days_of(fit.spread) if day <= LAST]
    return "\n".join(
        [
            f'<text x="10" y="{base - 16}">{escape(fit.name)}</text>',
            f'<text x="10" y="{base}" fill="#666">{fit.inside:.0%} in the range</text>',
            f'<rect x="{low:g}" y="{top}" width="{high - low:g}" height="{BARS}" fill="#f7e3a1"/>',
            *[bar for bar in bars if bar],
            f'<path d="M{centre:g} {top}V{base}" stroke="#a33" stroke-width="2"/>',
            f'<path d="M{LEFT} {base}H{WIDTH - 10}" stroke="#999"/>',
        ]
    )


def _bar(day: int, chance: float, base: int) -> str:
    tall = chance * BARS
    if tall < 0.5:
        return ""
    left = _x(day) - DAY / 2 + 3
    size = f'width="{DAY - 6}" height="{tall:.1f}"'
    return f'<rect x="{left:g}" y="{base - tall:.1f}" {size} fill="#555"/>'


def _axis(top: int) -> str:
    marks = [
        f'<text x="{_x(day):g}" y="{top}" text-anchor="middle">{day}</text>'
        for day in range(FIRST, LAST + 1, 5)
    ]
    return "\n".join([*marks, f'<text x="10" y="{top}">days</text>'])


def _x(day: float) -> float:
    return LEFT + DAY / 2 + (day - FIRST) * DAY


if __name__ == "__main__":
    PICTURE.parent.mkdir(exist_ok=True)
    PICTURE.write_text(picture(fits()), encoding="utf-8")
    print("\n".join(rows(fits())))
