"""The best visits of one yard by itself, by dynamic programming."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.visit_plan.errands import Errand


@dataclass(frozen=True)
class Leg:
    """Two visits of one yard with none between them.

    Attributes:
        start: number of the earlier visit's stop, counted from 1; 0 for before the first visit.
        end: number of the later one's; one more than there are stops for after the last visit.
        missed: errands that must be served and have all their days between the two.
        worth: sum, in thousandths, of what the errands that peak from the start on and before
            the end are worth at the better of the two visits.
    """

    start: int
    end: int
    missed: int
    worth: int


@dataclass(frozen=True)
class Route:
    """The stops of one yard and all legs between them.

    Along any choice of visits the legs' ``missed`` add up to the errands that go unserved, and
    their ``worth`` to the sum of what each errand is worth at its best visit. For an errand that
    goes unserved has its days, which no other stop parts, in just one gap. And every errand peaks
    in just one leg; since worth only falls away from the peak, no visit serves it better than the
    last one up to its peak or the first one after it, and these two are the ends of that leg.

    Attributes:
        stops: the dates on which a visit would serve something, earliest first.
        legs: every pair of stops, with the beginning and the end of the plan as outermost ones.
    """

    stops: tuple[date, ...]
    legs: tuple[Leg, ...]


@dataclass(frozen=True)
class Chosen:
    """The dates on which each yard is visited, and how sure it is that no choice is better.

    Attributes:
        days: the dates for each yard, earliest first.
        exact: proven to be the best in all that is aimed at.
    """

    days: Mapping[str, tuple[date, ...]]
    exact: bool


def route(errands: Sequence[Errand]) -> Route:
    """Work out the legs of one yard.

    Raises:
        ValueError: a stop of another errand lies among the days of an errand, not serving it.
    """
    stops = tuple(sorted({day for errand in errands for day in errand.days}))
    spans = [_span(errand, stops) for errand in errands if errand.days]
    end = len(stops) + 1
    legs = (_leg(a, b, spans) for a in range(end) for b in range(a + 1, end + 1))
    return Route(stops, tuple(legs))


@dataclass(frozen=True)
class _Span:
    """An errand in numbers of stops; ``worth`` by stop, 0 outside of its days."""

    first: int
    last: int
    peak: int
    must: bool
    worth: tuple[int, ...]


def _span(errand: Errand, stops: tuple[date, ...]) -> _Span:
    first, last = stops.index(errand.days[0]) + 1, stops.index(errand.days[-1]) + 1
    if stops[first - 1 : last] != errand.days:
        raise ValueError(f"the days of an errand are parted by others of its yard: {errand}")
    worth = (0, *(errand.worth(stop) for stop in stops), 0)
    return _Span(first, last, stops.index(errand.peak) + 1, errand.must, worth)


def _leg(start: int, end: int, spans: Sequence[_Span]) -> Leg:
    missed = sum(span.must and start < span.first and span.last < end for span in spans)
    peaking = (span for span in spans if start <= span.peak < end)
    worth = sum(max(span.worth[start], span.worth[end]) for span in peaking)
    return Leg(start, end, missed, worth)


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
