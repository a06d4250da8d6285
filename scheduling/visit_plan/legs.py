"""From one visit of a yard to its next: what is missed between them, and what they are worth."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from scheduling.visit_plan.errand import Errand


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
