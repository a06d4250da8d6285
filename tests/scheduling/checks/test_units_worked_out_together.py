"""A unit's calendar is the same whether it is worked out alone or among a whole crew."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from deploy.benchmark.invented_crew import invented_crew
from scheduling.checks.calendar import work_out
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.weather.yard_weather import YardWeather
from tests.scheduling.checks.test_calendar_laws import UNITS, entries
from tests.scheduling.story import YARD, Story, may, unit

CREW = tuple(Place(YARD, UnitName(box)) for box in range(1, 26))
hours = st.lists(st.floats(0, 3, width=16), max_size=80)


@settings(max_examples=50)
@given(st.lists(entries(CREW), min_size=6, max_size=9), hours)
def test_a_unit_among_many_has_the_calendar_it_has_alone(
    logs: list[list[Entry]], fit: list[float]
) -> None:
    log = [replace(e, uid=f"{n}-{e.uid}") for n, part in enumerate(logs) for e in part]
    weather = {YARD: YardWeather({may(n + 1): hours for n, hours in enumerate(fit)})}
    whole = work_out(log, weather)
    for place, state in whole.units.items():
        alone = work_out([e for e in log if e.place in {place, Place(YARD)}], weather)
        assert alone.checks[place] == whole.checks[place]
        assert alone.units[place] == state
        assert alone.forecasts.get(place) == whole.forecasts.get(place)


@given(entries(UNITS[:1]))
def test_a_unit_told_the_same_differs_in_its_place_alone(log: list[Entry]) -> None:
    twin = unit("9")
    doubled = [e for e in log if e.place == UNITS[0]]
    same = [replace(e, uid=f"twin-{e.uid}", place=twin, person="ada") for e in doubled]
    calendar = work_out([*log, *same])
    if not doubled:
        return
    first, second = calendar.units[UNITS[0]], calendar.units[twin]
    assert second._replace(place=first.place, entries=first.entries) == first
    found = [check._replace(place=UNITS[0]) for check in calendar.checks[twin]]
    assert tuple(found) == calendar.checks[UNITS[0]]
    assert [e.person for e in second.entries if e.place == twin] == ["ada"] * len(same)


def test_units_of_two_yards_are_never_taken_for_alike() -> None:
    """Their weather differs."""
    story = Story().on(1, EntryKind.CELL_PLACED).on(1, EntryKind.CELL_PLACED, at=unit("4a", "hill"))
    rain = {YARD: YardWeather({may(day): 0.0 for day in range(1, 25)})}
    looks = [
        check.best
        for found in work_out(story.entries, rain).checks.values()
        for check in found
        if check.kind == "laying"
    ]
    assert len(set(looks)) == 2


def test_a_whole_crew_is_worked_out_as_its_units_are() -> None:
    log, weather = invented_crew(3, 60, all_different=True)
    whole = work_out(log, weather)
    for place in whole.units:
        alone = work_out([entry for entry in log if entry.place == place], weather)
        assert alone.checks[place] == whole.checks[place]
