"""The dates that follow from a unit's facts and from what may be expected of its queen."""

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from scheduling.checks.forecasts import QueenForecast
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.trade.constant import Window, days_after
from scheduling.units.state import Stage, UnitState

BEFORE_LAYING = frozenset({Stage.CELL, Stage.CAGED, Stage.RAISING_OWN, Stage.VIRGIN})
"""Stages of a queen that has not been seen to lay."""

WITH_QUEEN = BEFORE_LAYING | {Stage.LAYING, Stage.PROVEN}

QUEENLESS = frozenset({Stage.WAITING, Stage.DRONE_LAYER})
"""Stages of a unit that wants a cell."""


@dataclass(frozen=True, slots=True)
class Look:
    """A look for eggs, and the days by which the weather has put it back."""

    window: Window
    days_late: int = 0


@dataclass(frozen=True)
class QueenDates:
    """When a unit's queen is looked at and given up.

    Several rules rest on the same date, so each is worked out once, when it is first asked for.

    Attributes:
        state: what the unit is.
        forecast: what may be expected of its queen; None where none of known age is waited for.

    """

    state: UnitState
    forecast: QueenForecast | None = None

    @cached_property
    def look(self) -> Look | None:
        """The next look for eggs, None where there is no queen or she lays."""
        state = self.state
        if stopped_laying(state) and state.no_eggs_on is not None:
            return Look(table.LOOK_AGAIN.window(state.no_eggs_on))
        if state.stage not in BEFORE_LAYING:
            return None
        if self.last_look is not None:
            return self._put_back(table.LOOK_AGAIN.window(self.last_look))
        first = self.first_window
        if first is None or self.forecast is None or not self.forecast.weather_known:
            return Look(first) if first is not None else None
        return self._put_back(first)

    @cached_property
    def last_look(self) -> date | None:
        """The last day on which eggs were due and none were found."""
        seen = latest_without_eggs(self.state)
        if seen is None:
            return None
        first = self.first_window
        return seen if first is None or seen >= first.not_before else None

    @cached_property
    def given_up_next(self) -> bool:
        """Whether a look without eggs came so late that the next one gives her up."""
        seen, give_up = self.last_look, self.give_up_by_age
        return seen is not None and give_up is not None and seen >= give_up.not_before

    @cached_property
    def give_up_by_age(self) -> Window | None:
        """The dates from and by which a queen without eggs is given up, by her own age.

        Best is the day on which she will hardly lay any more, though never before or after the
        published ages, or those moved by the crew's own odds.
        """
        state, forecast = self.state, self.forecast
        if state.stage not in BEFORE_LAYING:
            return None
        if state.mated_when_placed:
            out = release_day(state)
            return table.GIVE_UP_FROM_RELEASE.window(out) if out is not None else None
        if state.emergence_due is None:
            return None
        by_age = table.GIVE_UP_FROM_EMERGENCE.window(state.emergence_due)
        if forecast is None:
            return by_age
        by_age = by_age.moved(forecast.shift.give_up)
        return by_age.best_on(min(max(forecast.give_up, by_age.not_before), by_age.by))

    @cached_property
    def give_up(self) -> Window | None:
        """When she is given up: at the next look for eggs; after a late look by the last date."""
        by_age, seen = self.give_up_by_age, self.last_look
        if by_age is None:
            return None
        if seen is not None and seen >= by_age.not_before:
            last = max(by_age.by, days_after(seen, 1))
            return Window(min(days_after(seen, int(table.LOOK_AGAIN.low)), last), last, last)
        return by_age.not_earlier_than(self.look.window.best) if self.look is not None else by_age

    @cached_property
    def first_window(self) -> Window | None:
        """The dates of the first look in fair weather, None where nothing is known of her."""
        state = self.state
        if state.mated_when_placed:
            out = release_day(state)
            return table.LAYING_LOOK_FROM_RELEASE.window(out) if out is not None else None
        if state.emergence_due is None:
            return None
        if state.started_by is EntryKind.RAISING_OWN and state.started_on is not None:
            return self._by_own_odds(_own_window(state.started_on, state.emergence_due))
        window = self._by_own_odds(table.LAYING_LOOK_FROM_EMERGENCE.window(state.emergence_due))
        if state.started_by is EntryKind.VIRGIN_PLACED and state.started_on is not None:
            return window.not_earlier_than(table.VIRGIN_LEFT_ALONE.after(state.started_on))
        return window

    @property
    def expected_eggs(self) -> date | None:
        """The day on which a queen that was not seen to lay yet should have eggs."""
        if self.state.eggs_on is not None or self.look is None:
            return None
        return self.look.window.best

    def _by_own_odds(self, window: Window) -> Window:
        return window if self.forecast is None else self.forecast.shift.look(window)

    def _put_back(self, window: Window) -> Look:
        """Put a look back to where the walk has it; published days of fair weather are the least.

        However bad the weather, it is not put back past the day from which she is given up.
        """
        forecast, hatched = self.forecast, self.state.emergence_due
        if forecast is None or hatched is None:
            return Look(window)
        last = table.GIVE_UP_FROM_EMERGENCE.after(hatched)
        fair = _later_of(window, forecast.fair_look, last)
        found = _later_of(window, forecast.look, last)
        return Look(found, (found.best - fair.best).days)


def emergence_window(state: UnitState) -> Window | None:
    """Give the dates of the look, None where no cell is waited for.

    A unit that raises its own queen is not opened for it: its cells' age is not known, and more
    than one may be alive.
    """
    first = _first_window(state) if state.stage is Stage.CELL else None
    if first is None:
        return None
    if state.started_on is not None:
        first = first.not_earlier_than(days_after(state.started_on, 1))
    sealed = state.still_sealed_on
    if sealed is None or sealed < first.not_before:
        return first
    return table.STILL_SEALED_LOOK.window(sealed)


def _first_window(state: UnitState) -> Window | None:
    """Count from the graft, or from the look that found a cell of unknown age."""
    if state.grafted_on is not None:
        return table.EMERGENCE_LOOK_FROM_GRAFT.window(state.grafted_on)
    seen = state.still_sealed_on
    return table.STILL_SEALED_LOOK.window(seen) if seen is not None else None


def release_window(state: UnitState) -> Window | None:
    """Give the dates of the look, None where no queen is caged."""
    if state.stage is not Stage.CAGED or state.started_on is None:
        return None
    if state.still_caged_on is not None:
        return table.RELEASE_AGAIN.window(state.still_caged_on)
    return table.RELEASE_LOOK.window(state.started_on)


def release_day(state: UnitState) -> date | None:
    """Give the day a mated queen was let out, or is expected to be."""
    if state.released_on is not None:
        return state.released_on
    window = release_window(state)
    return window.best if window is not None else state.started_on


def latest_without_eggs(state: UnitState) -> date | None:
    """Give the last day a look told of no eggs, or of her without a word on eggs."""
    told = (state.no_eggs_on, state.virgin_seen_on, state.queen_seen_on)
    looks = [day for day in told if day is not None]
    return max(looks) if looks else None


def stopped_laying(state: UnitState) -> bool:
    """Tell whether a queen that laid was later found without eggs."""
    if state.eggs_last_on is None or state.no_eggs_on is None:
        return False
    return state.stage in {Stage.LAYING, Stage.PROVEN} and state.no_eggs_on > state.eggs_last_on


def _own_window(left: date, emerges: date) -> Window:
    """Count from the day the unit was left to itself, moved with what was seen of emergence."""
    expected = table.OWN_EMERGENCE.after(left)
    return table.OWN_LAYING_LOOK.window(left).moved((emerges - expected).days)


def _later_of(window: Window, walked: Window, last: date) -> Window:
    """Give the later of the two for each date, and none of the walk's that are past ``last``."""
    beyond = max((window.by - window.best).days, 0)
    return Window(
        max(window.not_before, min(walked.not_before, last)),
        max(window.best, min(walked.best, last)),
        max(window.by, min(walked.by, days_after(last, beyond))),
    )
