"""The same walk as a plain loop would have it: one queen, one day, one state after the other."""

from collections import defaultdict

from scheduling.walk.case import DAYS, FAILED, Case, State, likelihoods
from scheduling.walk.stages import PUBLISHED

Where = tuple[State, int, int]
"""The state, the day of emergence, and the day on which the stage ends (or -1)."""


def plain_walk(case: Case) -> tuple[list[float], list[float]]:
    """Give one queen's chance of eggs, and her chance to have failed, by day."""
    stages = PUBLISHED
    emerge = stages.emerge if case.from_cell else 1.0
    now: dict[Where, float] = {
        (State.SEALED, day, day): chance * emerge
        for day, chance in enumerate(case.emergence.chances)
    }
    now[State.DUD, -1, -1] = 1 - emerge
    seen = defaultdict(list)
    for day, sight in case.seen:
        seen[day].append(likelihoods(sight, stages))
    eggs, failed = [], []
    for day in range(DAYS):
        now = _next(now, day, case.flying[day])
        for likelihood in seen[day]:
            now = {where: chance * likelihood[where[0]] for where, chance in now.items()}
            whole = sum(now.values())
            now = {where: chance / whole for where, chance in now.items()}
        eggs.append(sum(chance for where, chance in now.items() if where[0] is State.LAYING))
        failed.append(sum(chance for where, chance in now.items() if where[0] in FAILED))
    return eggs, failed


def _next(now: dict[Where, float], day: int, flying: float) -> dict[Where, float]:
    after: dict[Where, float] = defaultdict(float)
    mates = 1 - (1 - PUBLISHED.flight_chance) ** flying
    for (state, emerged, ends), chance in now.items():
        left = chance
        if state in (State.MATURING, State.WAITING, State.MATED):
            left = chance * (1 - PUBLISHED.lost_a_day)
            after[State.LOST, -1, -1] += chance - left
        if state is State.SEALED and ends == day:
            _emerge(after, day, left)
        elif (state is State.MATURING and ends == day) or state is State.WAITING:
            _wait(after, emerged, day, left, mates)
        elif state is State.MATED and ends == day:
            after[State.LAYING, -1, -1] += left
        else:
            after[state, emerged, ends] += left
    return after


def _emerge(after: dict[Where, float], day: int, chance: float) -> None:
    for nth, share in enumerate(PUBLISHED.maturing.chances):
        after[State.MATURING, day, day + PUBLISHED.maturing.first + nth] += chance * share


def _wait(after: dict[Where, float], emerged: int, day: int, chance: float, mates: float) -> None:
    age = day - emerged
    home = chance * mates * PUBLISHED.back
    well = home * PUBLISHED.mates_well(age)
    after[State.LOST, -1, -1] += chance * mates - home
    after[State.UNMATED, -1, -1] += home - well
    still = State.UNMATED if age >= PUBLISHED.mates_until else State.WAITING
    where = (still, -1, -1) if still is State.UNMATED else (still, emerged, -1)
    after[where] += chance * (1 - mates)
    for nth, share in enumerate(PUBLISHED.to_first_egg.chances):
        after[State.MATED, -1, day + PUBLISHED.to_first_egg.first + nth] += well * share
