"""The walk of one queen: a Markov chain over her stages, filtered by what was seen of her."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul

from scheduling.walk.case import DAYS, Case, Sight
from scheduling.walk.stages import PUBLISHED, Stages
from scheduling.walk.states import State, likelihoods

IMPOSSIBLE = 1e-12
"""A sight less likely than this cannot be, as far as the numbers tell."""

CERTAIN = 1e-9
"""What is left of a chance that has been rounded away."""

Row = Sequence[float]
"""One number for each day of emergence."""


@dataclass(frozen=True, slots=True)
class Walked:
    """Chances of one queen on each day, given what was seen of her up to that day.

    On the days after the last sight they are given all that was seen.

    Attributes:
        emerged: she has come out of her cell, whatever became of her since.
        virgin: she is out, there, and has not mated.
        eggs: she lays, so that eggs can be seen.
        failed: the cell is a dud, or she is lost, or too old to mate well.
        possible: whether what was seen can be at all.

    """

    emerged: tuple[float, ...]
    virgin: tuple[float, ...]
    eggs: tuple[float, ...]
    failed: tuple[float, ...]
    possible: bool

    @property
    def eggs_if_alive(self) -> list[float]:
        """Chance of eggs on each day if she has not failed; 0 where she has for certain."""
        return [share_of(lays, 1 - lost) for lays, lost in zip(self.eggs, self.failed, strict=True)]


def walk(case: Case, stages: Stages = PUBLISHED) -> Walked:
    """Walk one queen through her stages, her own weather and sights."""
    queen, days = _Queen(case, stages), list[tuple[float, ...]]()
    single = 1 - stages.flight_chance
    seen: dict[int, list[Sight]] = {}
    # The same seen twice on one day tells no more than once.
    for day, sight in dict.fromkeys(case.seen):
        seen.setdefault(day, []).append(sight)
    for day, flying in enumerate(case.flying):
        if queen.settled and day not in seen:
            days.append(days[-1])
            continue
        queen.step(day, 1 - single**flying if flying else 0.0)
        for sight in seen.get(day, ()):
            queen.narrow(day, _likelihoods(sight, stages))
        days.append(queen.chances(day))
    emerged, virgin, eggs, failed, left = zip(*days, strict=True)
    return Walked(emerged, virgin, eggs, failed, left[-1] > 0)


_likelihoods = lru_cache(maxsize=64)(likelihoods)


class _Queen:
    """Where a queen may stand on a day.

    A stage of a given length is kept apart by the day it ends: the sealed, the maturing and the
    waiting by their day of emergence, the mated by the days until the first egg. So nothing but
    the day is needed to know who passes on. Of the maturing stands the chance that she emerged on
    that day and is still there; the share of them that is not mature yet is told by her age.
    The young are lost alike whatever their day of emergence, so their rows stand as if none were,
    and what is left of them is one number.
    """

    def __init__(self, case: Case, stages: Stages) -> None:
        emerges = stages.emerge if case.from_cell else 1.0
        self._sealed = [chance * emerges for chance in case.emergence.chances]
        self._share_lost = stages.lost_a_day
        self._stages, self._by_day = stages, ages_of_days(stages, len(self._sealed))
        self._maturing = [0.0] * len(self._sealed)
        self._waiting = [0.0] * len(self._sealed)
        self._mated = [0.0] * stages.to_first_egg.last
        self._laying, self._dud, self._lost, self._unmated = 0.0, 1 - emerges, 0.0, 0.0
        self._left, self._out, self._away = 1.0, 0.0, 0.0
        self.settled = False
        """Nothing is left that another day could change."""

    def step(self, day: int, mating: float) -> None:
        """Pass to ``day``; ``mating`` is the chance that a virgin who waits mates on it."""
        self._lost += self._share_lost * (self._out + self._away)
        self._left *= 1 - self._share_lost
        if self._away:
            self._lay()
        if day < len(self._sealed):
            self._maturing[day], self._sealed[day] = self._sealed[day] / self._left, 0.0
        ages = self._by_day[day]
        if ages.matures:
            self._mature(ages.matures)
        if mating and any(self._waiting):
            self._mate(ages.mates_well, mating)
        if day >= self._stages.mates_until:
            self._grow_old(day)

    def narrow(self, day: int, likelihood: tuple[float, ...]) -> None:
        """Weigh each state by the likelihood of what was seen, then make chances of it again."""
        total = self._dud * likelihood[State.DUD] + self._laying * likelihood[State.LAYING]
        total += self._lost * likelihood[State.LOST] + self._unmated * likelihood[State.UNMATED]
        total += sum(self._sealed) * likelihood[State.SEALED]
        young = self._ripening(day) * likelihood[State.MATURING]
        young += sum(self._waiting) * likelihood[State.WAITING]
        young += sum(self._mated) * likelihood[State.MATED]
        total += self._left * young
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

    def chances(self, day: int) -> tuple[float, ...]:
        """Give emerged, virgin, eggs, failed, and the sum of all."""
        self._out = self._left * (self._ripening(day) + sum(self._waiting))
        self._away = self._left * sum(self._mated)
        gone = self._lost + self._unmated
        emerged = self._out + self._away + self._laying + gone
        sealed = sum(self._sealed) if day < len(self._sealed) else 0.0
        self.settled = not (sealed or self._out or self._away)
        total = emerged + sealed + self._dud
        return emerged, self._out, self._laying, gone + self._dud, total

    def _ripening(self, day: int) -> float:
        """Give the chance that she is out and not old enough to mate."""
        immature = self._by_day[day].immature
        return _weighed(immature, self._maturing) if immature else 0.0

    def _lay(self) -> None:
        self._laying += self._left * self._mated.pop(0)
        self._mated.append(0.0)

    def _mature(self, matures: Row) -> None:
        young = zip(self._waiting, matures, self._maturing, strict=True)
        self._waiting = [waits + share * ripens for waits, share, ripens in young]

    def _mate(self, mates_well: Row, mating: float) -> None:
        flying, back = mating * self._left, self._stages.back
        away = flying * sum(self._waiting)
        good = back * flying * _weighed(mates_well, self._waiting)
        self._waiting = _times(self._waiting, 1 - mating)
        self._lost += (1 - back) * away
        self._unmated += back * away - good
        self._begin_to_lay(good / self._left)

    def _begin_to_lay(self, good: float) -> None:
        spread = self._stages.to_first_egg
        for days_before, chance in enumerate(spread.chances, spread.first - 1):
            self._mated[days_before] += chance * good

    def _grow_old(self, day: int) -> None:
        too_old = min(day - self._stages.mates_until + 1, len(self._waiting))
        self._unmated += self._left * sum(self._waiting[:too_old])
        self._waiting[:too_old] = [0.0] * too_old


def share_of(chance: float, left: float) -> float:
    """Give a chance among what is left; 0 where nothing is, as far as the numbers tell."""
    return chance / left if left > CERTAIN else 0.0


def _weighed(shares: Row, row: Row) -> float:
    """Sum up a row by shares; of no shares it is nought."""
    weighed: float = sum(map(mul, shares, row))
    return weighed


def _times(row: Iterable[float], by: float) -> list[float]:
    return [number * by for number in row]


@dataclass(frozen=True, slots=True)
class Ages:
    """What the ages of one day make of her, by the day of her emergence; empty if all are nought.

    Attributes:
        matures: the share that matures on it.
        immature: the share that is not mature after it.
        mates_well: the chance that a mating on it is a good one.

    """

    matures: Row
    immature: Row
    mates_well: Row


@lru_cache(maxsize=16)
def ages_of_days(stages: Stages, emergences: int) -> tuple[Ages, ...]:
    """Give what each day's ages make of queens, of so many days of emergence, the first first."""
    chances = dict(enumerate(stages.maturing.chances, stages.maturing.first))
    return tuple(
        Ages(
            _unless_nought(chances.get(age, 0.0) for age in ages),
            _unless_nought(sum(of for at, of in chances.items() if at > age) for age in ages),
            tuple(stages.mates_well(age) for age in ages),
        )
        for ages in (range(day, day - emergences, -1) for day in range(DAYS))
    )


def _unless_nought(row: Iterable[float]) -> Row:
    numbers = tuple(row)
    return numbers if any(numbers) else ()
