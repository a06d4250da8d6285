"""The walk of one queen in plain numbers: for a few queens sooner than the arrays of many.

What ``forward.py`` says of many queens is said here of one; a change of one is a change of both.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from scheduling.quickly_made import quickly_made
from scheduling.walk.case import DAYS, LONGEST_EMERGENCE, Case, Sight
from scheduling.walk.sight import likelihoods
from scheduling.walk.stages import PUBLISHED, Stages
from scheduling.walk.states import State

IMPOSSIBLE = 1e-12
"""A sight less likely than this cannot be, as far as the numbers tell."""

Row = Sequence[float]
"""One number for each day of emergence, or for each day walked."""


@quickly_made
@dataclass(frozen=True, slots=True)
class WalkedAlone:
    """Chances of one queen on each day, as ``Walked`` has them of many."""

    emerged: tuple[float, ...]
    virgin: tuple[float, ...]
    eggs: tuple[float, ...]
    failed: tuple[float, ...]
    possible: bool


@quickly_made
@dataclass(frozen=True, slots=True)
class _ByAge:
    """Shares by age, the greatest age first and so the first day of emergence first."""

    matures: Row
    immature: Row
    mates_well: Row


def walk_alone(case: Case, stages: Stages = PUBLISHED) -> WalkedAlone:
    """Walk one queen through her stages, her own weather and sights."""
    queen, days = _Queen(case, stages), []
    single = 1 - stages.flight_chance
    seen: dict[int, list[Sight]] = {}
    # The same seen twice on one day tells no more than once.
    for day, sight in dict.fromkeys(case.seen):
        seen.setdefault(day, []).append(sight)
    for day, flying in enumerate(case.flying):
        queen.step(day, 1 - single**flying if flying else 0.0)
        for sight in seen.get(day, ()):
            queen.narrow(_likelihoods(sight, stages))
        days.append(queen.chances())
    emerged, virgin, eggs, failed, left = zip(*days, strict=True)
    return WalkedAlone(emerged, virgin, eggs, failed, left[-1] > 0)


_likelihoods = lru_cache(maxsize=64)(likelihoods)


@lru_cache(maxsize=8)
def _by_age(stages: Stages) -> _ByAge:
    ages = range(DAYS - 1, -LONGEST_EMERGENCE, -1)
    chances = dict(enumerate(stages.maturing.chances, stages.maturing.first))
    return _ByAge(
        tuple(chances.get(age, 0.0) for age in ages),
        tuple(sum(chance for of, chance in chances.items() if of > age) for age in ages),
        tuple(stages.mates_well(age) for age in ages),
    )


class _Queen:
    """Where one queen may stand on a day: the rows of ``Forward``, for one queen."""

    def __init__(self, case: Case, stages: Stages) -> None:
        emerges = stages.emerge if case.from_cell else 1.0
        self._stages, self._ages = stages, _by_age(stages)
        self._sealed = [chance * emerges for chance in case.emergence.chances]
        self._maturing = [0.0] * len(self._sealed)
        self._waiting = [0.0] * len(self._sealed)
        self._mated = [0.0] * stages.to_first_egg.last
        self._laying, self._dud, self._lost, self._unmated = 0.0, 1 - emerges, 0.0, 0.0
        self._immature: Row = self._maturing
        self._out = self._away = 0.0

    def step(self, day: int, mating: float) -> None:
        """Pass to ``day``; ``mating`` is the chance that a virgin who waits mates on it."""
        self._lose()
        if self._away:
            self._lay()
        if day < len(self._sealed):
            self._maturing[day], self._sealed[day] = self._sealed[day], 0.0
        oldest = DAYS - 1 - day
        of_emergence = slice(oldest, oldest + len(self._sealed))
        self._immature = self._ages.immature[of_emergence]
        self._mature(self._ages.matures[of_emergence])
        if mating and any(self._waiting):
            self._mate(self._ages.mates_well[of_emergence], mating)
        self._grow_old(day)

    def narrow(self, likelihood: tuple[float, ...]) -> None:
        """Weigh each state by the likelihood of what was seen, then make chances of it again."""
        total = self._dud * likelihood[State.DUD] + self._laying * likelihood[State.LAYING]
        total += self._lost * likelihood[State.LOST] + self._unmated * likelihood[State.UNMATED]
        total += sum(self._sealed) * likelihood[State.SEALED]
        total += self._ripening() * likelihood[State.MATURING]
        total += sum(self._waiting) * likelihood[State.WAITING]
        total += sum(self._mated) * likelihood[State.MATED]
        scale = 1 / total if total > IMPOSSIBLE else 0.0
        by = [chance * scale for chance in likelihood]
        self._sealed = _times(self._sealed, by[State.SEALED])
        self._maturing = _times(self._maturing, by[State.MATURING])
        self._waiting = _times(self._waiting, by[State.WAITING])
        self._mated = _times(self._mated, by[State.MATED])
        self._laying *= by[State.LAYING]
        self._dud *= by[State.DUD]
        self._lost *= by[State.LOST]
        self._unmated *= by[State.UNMATED]

    def chances(self) -> tuple[float, float, float, float, float]:
        """Give emerged, virgin, eggs, failed, and the sum of all."""
        self._out, self._away = self._ripening() + sum(self._waiting), sum(self._mated)
        gone = self._lost + self._unmated
        emerged = self._out + self._away + self._laying + gone
        total = emerged + sum(self._sealed) + self._dud
        return emerged, self._out, self._laying, gone + self._dud, total

    def _ripening(self) -> float:
        """Give the chance that she is out and not old enough to mate."""
        young = zip(self._immature, self._maturing, strict=True)
        return sum([share * ripens for share, ripens in young])

    def _lose(self) -> None:
        share = self._stages.lost_a_day
        self._lost += share * (self._out + self._away)
        self._maturing = _times(self._maturing, 1 - share)
        self._waiting = _times(self._waiting, 1 - share)

    def _lay(self) -> None:
        first, *later = _times(self._mated, 1 - self._stages.lost_a_day)
        self._laying += first
        self._mated = [*later, 0.0]

    def _mature(self, matures: Row) -> None:
        if any(matures):
            young = zip(self._waiting, matures, self._maturing, strict=True)
            self._waiting = [waits + share * ripens for waits, share, ripens in young]

    def _mate(self, mates_well: Row, mating: float) -> None:
        flown = _times(self._waiting, mating)
        self._waiting = [w - f for w, f in zip(self._waiting, flown, strict=True)]
        away, back = sum(flown), self._stages.back
        self._lost += (1 - back) * away
        good = back * sum([share * f for share, f in zip(mates_well, flown, strict=True)])
        self._unmated += back * away - good
        for ahead, chance in enumerate(self._stages.to_first_egg.chances, self._first_egg):
            self._mated[ahead] += chance * good

    @property
    def _first_egg(self) -> int:
        return self._stages.to_first_egg.first - 1

    def _grow_old(self, day: int) -> None:
        too_old = min(max(0, day - self._stages.mates_until + 1), len(self._waiting))
        if too_old:
            self._unmated += sum(self._waiting[:too_old])
            self._waiting[:too_old] = [0.0] * too_old


def _times(row: Iterable[float], by: float) -> list[float]:
    return [number * by for number in row]
