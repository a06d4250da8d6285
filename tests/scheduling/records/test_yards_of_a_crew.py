"""Yards with their places, zones, boxes and units."""

import pytest

from scheduling.places import UnitName
from scheduling.records.crew_records import CrewRecords


def names(units: tuple[UnitName, ...]) -> list[str]:
    return [str(unit) for unit in units]


def test_a_yard_is_found_by_its_name_whatever_the_capitals(records: CrewRecords) -> None:
    assert records.yard(" RIVER ").name == "River"
    with pytest.raises(LookupError, match="no yard 'Hill'"):
        records.yard("Hill")


def test_two_yards_cannot_bear_one_name(records: CrewRecords) -> None:
    with pytest.raises(ValueError, match="already a yard"):
        records.add_yard("river", "UTC")


def test_a_yard_is_told_where_it_is_and_which_clock_it_keeps(records: CrewRecords) -> None:
    records.add_yard("Hill", "UTC", latitude=44.9, longitude=-93.2)
    records.set_location("hill", 45.0, -93.0)
    records.set_yard_zone("hill", "America/Denver")
    hill = records.yards()[1]
    assert (hill.name, hill.zone) == ("Hill", "America/Denver")
    assert (hill.latitude, hill.longitude) == (45.0, -93.0)


@pytest.mark.parametrize(("latitude", "longitude"), [(90.1, 0), (0, -180.1), (float("nan"), 0)])
def test_a_yard_must_be_on_earth(records: CrewRecords, latitude: float, longitude: float) -> None:
    with pytest.raises(ValueError, match="is not from"):
        records.set_location("River", latitude, longitude)


def test_half_a_location_is_none(records: CrewRecords) -> None:
    with pytest.raises(ValueError, match="a latitude and a longitude"):
        records.add_yard("Hill", "UTC", latitude=45.0)


def test_units_stand_in_order_and_are_set_up_once(records: CrewRecords) -> None:
    new = records.add_units("River", [UnitName(10), UnitName(4, "c"), UnitName(5, "a")])
    assert names(new) == ["5a", "10"]
    assert names(records.units("river")) == ["4a", "4b", "4c", "5a", "7", "10"]


def test_two_yards_may_both_have_a_box_4(records: CrewRecords) -> None:
    records.add_yard("Hill", "UTC")
    assert names(records.add_units("Hill", [UnitName(4, "a")])) == ["4a"]


def test_a_moved_yard_keeps_its_new_clock_at_once(records: CrewRecords) -> None:
    assert records.at_a_glance().zones == {"River": "America/Chicago"}
    records.set_yard_zone("River", "America/Denver")
    assert records.at_a_glance().zones == {"River": "America/Denver"}
