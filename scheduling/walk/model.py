"""The walk of one queen: a Markov chain over her stages, filtered by what was seen of her."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from operator import mul, truediv

from scheduling.walk.case import DAYS, Case, State, likelihoods
from scheduling.walk.stages import PUBLISHED, Stages

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

    emerged: Sequence[float]
    virgin: Sequence[float]
    eggs: Sequence[float]
    failed: Sequence[float]
    possible: bool

    def eggs_if_alive(self, day: int) -> float:
        """Chance of eggs on a day if she has not failed; 0 where she has for certain."""
        return share_of(self.eggs[day], 1 - self.failed[day])


def walk(case: Case, stages: Stages = PUBLISHED) -> Walked:
    """Walk one queen through her stages, her own weather and sights."""
    queen, passed = _Queen(case, stages), 0
    # The same seen twice on one day tells no more than once.
    for day, sight in dict.fromkeys(case.seen):
        queen.pass_days(passed, day + 1)
        queen.narrow(day, _likelihoods(sight, stages))
        passed = day + 1
    queen.pass_days(passed, DAYS)
    return Walked(*queen.days, possible=queen.possible)


_likelihoods = lru_cache(maxsize=64)(likelihoods)


class _Queen:
    """Where a queen may stand on a day.

    A stage of a given length is kept apart by the day it ends: the sealed and the young by their
    day of emergence, the mated by the day of their first egg. So nothing but the day is needed to
    know who passes on. The young, which mature and then wait, are lost alike whatever their age,
    and those who wait mate alike: they stand as if none were lost and none had mated, and what is
    left of each is one number. Who is out and is no virgin, not mated and not laying has failed.
    """

    def __init__(self, case: Case, stages: Stages) -> None:
        emerges = stages.emerge if case.from_cell else 1.0
        self._stages, self._flying = stages, case.flying
        self._by_day = ages_of_days(stages, len(case.emergence.chances))
        self._sealed = [chance * emerges for chance in case.emergence.chances]
        self._young = [0.0] * len(self._sealed)
        self._lay_on = [0.0] * (DAYS + stages.to_first_egg.last)
        self._dud, self._out = 1 - emerges, 0.0
        self._immature, self._waiting, self._single, self._mated = 0.0, 0.0, 1.0, 0.0
        self._laying, self._unmated, self.possible = 0.0, 0.0, True
        self._singles: list[float] = []
        """The single on each day on which she may emerge or mature, before any flew."""
        self._by_emergence: list[float] = []
        self.days: tuple[list[float], list[float], list[float], list[float]] = [], [], [], []
        """Emerged, virgin, eggs and failed, of each day passed."""

    def pass_days(self, first: int, end: int) -> None:
        """Pass from day to day, up to the one before ``end``."""
        emerged, virgin, eggs, failed = self.days
        lay_on, mated, laying = self._lay_on, self._mated, self._laying
        stays_single, spread = 1 - self._stages.flight_chance, self._stages.to_first_egg
        for ages, flying in zip(self._by_day[first:end], self._flying[first:end], strict=True):
            day, left = ages.day, ages.left
            lays = lay_on[day]
            mated -= lays
            laying += left * lays
            if ages.ripens:
                self._ripen(ages)
            if flying and self._waiting:
                mates_well = self._mate(ages, 1 - stays_single**flying)
                mated += mates_well
                for first_egg, chance in enumerate(spread.chances, day + spread.first):
                    lay_on[first_egg] += chance * mates_well
            if ages.too_old and self._waiting:
                self._grow_old(ages)
            waits = left * (self._immature + self._single * self._waiting)
            emerged.append(self._out)
            virgin.append(waits)
            eggs.append(laying)
            failed.append(self._dud + self._out - waits - left * mated - laying)
        self._mated, self._laying = mated, laying

    def narrow(self, day: int, likelihood: Row) -> None:
        """Weigh each state by the likelihood of what was seen, then make chances of it again."""
        weighed = list(map(mul, self._by_state(day), likelihood))
        total = sum(weighed)
        self.possible = self.possible and total > IMPOSSIBLE
        scale = 1 / total if self.possible else 0.0
        _, _, virgin, mated, laying, dud, lost, unmated = (chance * scale for chance in weighed)
        self._out = virgin + mated + laying + lost + unmated
        self._laying, self._dud, self._unmated = laying, dud, unmated
        self._weigh_rows(day, [chance * scale for chance in likelihood])
        chances = self._out, virgin, laying, dud + lost + unmated
        for row, chance in zip(self.days, chances, strict=True):
            row[day] = chance

    def _by_state(self, day: int) -> Row:
        """Give her chances in the order of the states, virgins of any age among the waiting."""
        _emerged, virgins, _eggs, _failed = self.days
        virgin, mated = virgins[day], self._by_day[day].left * self._mated
        lost = self._out - virgin - mated - self._laying - self._unmated
        sealed = sum(self._sealed)
        return sealed, 0.0, virgin, mated, self._laying, self._dud, lost, self._unmated

    def _weigh_rows(self, day: int, by: Row) -> None:
        """Weigh all that was not weighed yet; no sight tells the waiting from the maturing."""
        self._sealed = _times(self._sealed, by[State.SEALED])
        virgin, mated = by[State.WAITING], by[State.MATED]
        self._young = _times(self._young, virgin)
        self._by_emergence = _times(self._by_emergence, virgin)
        self._immature, self._waiting = self._immature * virgin, self._waiting * virgin
        self._mated *= mated
        yet_to_lay = slice(day + 1, day + 1 + self._stages.to_first_egg.last)
        self._lay_on[yet_to_lay] = _times(self._lay_on[yet_to_lay], mated)

    def _ripen(self, ages: "Ages") -> None:
        """Let those of the day emerge, and those who are old enough wait for a flight."""
        day, young, single = ages.day, self._young, self._single
        if day < len(young):
            sealed, self._sealed[day] = self._sealed[day], 0.0
            young[day] = sealed / ages.left
            self._immature += young[day]
            self._out += sealed
        self._singles.append(single)
        if ages.matures:
            ripe = _weighed(ages.matures, young)
            self._immature = self._immature - ripe if ages.immature else 0.0
            self._waiting += ripe / single

    def _mate(self, ages: "Ages", mating: float) -> float:
        """Give the chance that she flies and mates well; who comes home too old is unmated."""
        mates = mating * self._single
        self._single -= mates
        home = self._stages.back * mates * self._waiting
        if not ages.mates_well:
            return home
        well = _weighed(ages.mates_well, self._waiting_by_emergence()) / self._waiting
        self._unmated += ages.left * home * (1 - well)
        return home * well

    def _grow_old(self, ages: "Ages") -> None:
        waiting = self._waiting_by_emergence()
        waiting[: ages.too_old] = [0.0] * ages.too_old
        still = sum(waiting)
        self._unmated += ages.left * self._single * (self._waiting - still)
        self._waiting = still

    def _waiting_by_emergence(self) -> list[float]:
        """Sort those who wait by their day of emergence, once all of them are old enough."""
        if not self._by_emergence:
            spread, singles = self._stages.maturing, self._singles
            self._by_emergence = [
                young * sum(map(truediv, spread.chances, singles[day + spread.first :]))
                for day, young in enumerate(self._young)
            ]
        return self._by_emergence


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
    """What the ages of one day make of her, by the day of her emergence.

    Attributes:
        day: the day.
        left: the share of the young that is not lost by then, of those there before day 0.
        ripens: whether she may emerge or mature on it.
        matures: the share that matures on it; empty if none does.
        immature: whether any is not mature after it.
        mates_well: the chance that a mating on it is a good one; empty if each is.
        too_old: how many days of emergence, from the first on, make her too old to mate.

    """

    day: int
    left: float
    ripens: bool
    matures: Row
    immature: bool
    mates_well: Row
    too_old: int


@lru_cache(maxsize=16)
def ages_of_days(stages: Stages, emergences: int) -> tuple[Ages, ...]:
    """Give what each day's ages make of queens, of so many days of emergence, the first first."""
    chances = dict(enumerate(stages.maturing.chances, stages.maturing.first))
    return tuple(
        Ages(
            day=ages[0],
            left=(1 - stages.lost_a_day) ** (ages[0] + 1),
            ripens=ages[-1] <= stages.maturing.last,
            matures=_unless_all(0, [chances.get(age, 0.0) for age in ages]),
            immature=ages[-1] < stages.maturing.last,
            mates_well=_unless_all(1, [stages.mates_well(age) for age in ages]),
            too_old=sum(age >= stages.mates_until for age in ages),
        )
        for ages in (range(day, day - emergences, -1) for day in range(DAYS))
    )


def _unless_all(usual: float, row: list[float]) -> Row:
    return tuple(row) if any(number != usual for number in row) else ()
