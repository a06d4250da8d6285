"""The best visits of one yard by itself, by dynamic programming."""

from collections.abc import Sequence
from dataclasses import dataclass

from scheduling.visit_plan.legs import Leg, Route


@dataclass(frozen=True, order=True)
class _Path:
    """Visits up to a stop, in the order in which paths are compared: the least one is best.

    Attributes:
        missed: errands that must be served and are not.
        visits: number of visits, the stop at the path's end counted.
        worth_lost: the worth so far in thousandths, as a negative number.
        stops: their numbers; of equal paths the one with the earlier visits is taken.

    """

    missed: int = 0
    visits: int = 0
    worth_lost: int = 0
    stops: tuple[int, ...] = ()

    def along(self, leg: Leg) -> "_Path":
        return _Path(
            self.missed + leg.missed,
            self.visits + 1,
            self.worth_lost - leg.worth,
            (*self.stops, leg.end),
        )


def best_stops(route: Route) -> tuple[int, ...]:
    """Give the numbers, from 0, of the stops to visit.

    No errand that must be served is missed, the visits are as few as that allows, and of all such
    choices none is worth more.

    Proof: choices of visits are the paths from the beginning of the plan to its end, and what a
    choice misses, its number of visits and its worth are sums over the path's legs (see
    ``Route``). Paths are compared by these sums in turn, and adding the same leg to two paths
    does not change which is the better one; so the best path to a stop goes on from a best path
    to the stop before it (Bellman's principle), and trying every last leg finds it. A path along
    all stops misses nothing, so the best one does not either.
    """
    best = {0: _Path()}
    for end in range(1, len(route.stops) + 2):
        into = (leg for leg in route.legs if leg.end == end)
        best[end] = min(best[leg.start].along(leg) for leg in into)
    *stops, _end = best[len(route.stops) + 1].stops
    return tuple(number - 1 for number in stops)


def fewest(route: Route) -> Route:
    """Keep the legs of the ways that miss nothing and have the fewest visits, and only those."""
    here = [leg for leg in route.legs if not leg.missed]
    end = len(route.stops) + 1
    ahead = _legs_from_start(here, end)
    mirrored = [Leg(end - leg.end, end - leg.start, 0, leg.worth) for leg in here]
    behind = _legs_from_start(mirrored, end)
    kept = [leg for leg in here if ahead[leg.start] + 1 + behind[end - leg.end] == ahead[end]]
    return Route(route.stops, tuple(kept))


def _legs_from_start(legs: Sequence[Leg], end: int) -> list[int]:
    """Give the fewest legs from the beginning to each stop; the stop before is always one."""
    fewest_legs = [0]
    for number in range(1, end + 1):
        into = (fewest_legs[leg.start] for leg in legs if leg.end == number)
        fewest_legs.append(min(into) + 1)
    return fewest_legs
