"""A value that fills its slots itself is the value that ``dataclass`` makes."""

import copy
import pickle
from dataclasses import FrozenInstanceError, dataclass, field, replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause, Check, Why
from scheduling.places import Place, UnitName
from scheduling.quickly_made import quickly_made
from scheduling.trade.window import Window

PLACE = Place("River", UnitName(4, "a"))
LOOK = Check(PLACE, CheckKind.LAYING, date(2027, 5, 1), None, None, Why(Cause.NO_EGGS_YET))


@dataclass(frozen=True, slots=True)
class _SlowlyMade:
    day: date
    days: int = 3
    name: str | None = None


@quickly_made
@dataclass(frozen=True, slots=True)
class _QuicklyMade:
    day: date
    days: int = 3
    name: str | None = None


@given(st.dates(), st.integers(), st.none() | st.text())
def test_the_same_is_given_and_kept(day: date, days: int, name: str | None) -> None:
    for given_days in ({}, {"days": days}):
        slowly = _SlowlyMade(day, name=name, **given_days)
        quickly = _QuicklyMade(day, name=name, **given_days)
        assert (quickly.day, quickly.days, quickly.name) == (slowly.day, slowly.days, slowly.name)
        assert repr(quickly) == repr(slowly).replace("Slowly", "Quickly")
        assert hash(quickly) == hash(slowly)


def test_a_field_left_out_or_not_known_is_refused() -> None:
    with pytest.raises(TypeError, match="missing 1 required positional argument: 'day'"):
        _QuicklyMade()  # type: ignore[call-arg]
    with pytest.raises(TypeError, match="unexpected keyword argument 'week'"):
        _QuicklyMade(date(2027, 5, 1), week=1)  # type: ignore[call-arg]


def test_what_was_made_stays_as_it_is() -> None:
    with pytest.raises(FrozenInstanceError):
        LOOK.by = date(2027, 5, 2)  # type: ignore[misc]


def test_what_is_checked_when_made_is_still_checked() -> None:
    with pytest.raises(ValueError, match="out of order"):
        Window(date(2027, 5, 2), date(2027, 5, 1), date(2027, 5, 3))


def test_it_is_replaced_copied_and_sent_to_another_process_as_any_value() -> None:
    later = replace(LOOK, not_before=date(2027, 5, 9))
    assert (later.place, later.not_before) == (PLACE, date(2027, 5, 9))
    assert copy.deepcopy(LOOK) == pickle.loads(pickle.dumps(LOOK)) == LOOK  # noqa: S301 - ours


def test_a_value_without_slots_is_refused() -> None:
    with pytest.raises(TypeError, match="no slot for day"):

        @quickly_made
        @dataclass(frozen=True)
        class _WithoutSlots:
            day: date


def test_a_field_that_makes_its_own_value_is_refused() -> None:
    with pytest.raises(TypeError, match="days is not simply given"):

        @quickly_made
        @dataclass(frozen=True, slots=True)
        class _MakesItsOwn:
            days: list[date] = field(default_factory=list)
