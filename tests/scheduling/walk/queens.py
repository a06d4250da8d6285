"""Queens to walk: how old, in what weather, and what was seen; all of it invented."""

from dataclasses import replace

from scheduling.walk.case import DAYS, Case, Sight
from scheduling.walk.stages import EMERGENCE, PUBLISHED, Stages, certain

OUT = Case(certain(0), from_cell=False)
"""A queen known to have emerged on day 0; days are her age."""

CELL = Case(EMERGENCE.moved(-EMERGENCE.first))
"""A ripe cell; she is due on day 2."""

SURE = replace(
    PUBLISHED,
    maturing=certain(5),
    flight_chance=1.0,
    to_first_egg=certain(3),
    emerge=1.0,
    back=1.0,
    lost_a_day=0.0,
)
"""No spread and no loss: emergence, five days to mature, mates that day, an egg three days on."""


def raining(case: Case, *days: int) -> Case:
    """The same queen, on those days unable to fly."""
    return replace(case, flying=tuple(0.0 if d in days else f for d, f in enumerate(case.flying)))


def always_raining(case: Case) -> Case:
    return replace(case, flying=(0.0,) * DAYS)


def seen(case: Case, *sights: tuple[int, Sight]) -> Case:
    return replace(case, seen=sights)


def without_losses(stages: Stages = PUBLISHED) -> Stages:
    return replace(stages, emerge=1.0, back=1.0, lost_a_day=0.0)
