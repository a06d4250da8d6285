"""A calendar worked out after another is the one worked out from nothing, whatever came between."""

from collections.abc import Mapping
from unittest.mock import patch

from hypothesis import given
from hypothesis import strategies as st

from scheduling.checks import work_out_again as module
from scheduling.checks.calendar import work_out, work_out_units
from scheduling.checks.work_out_again import WorkedOut, work_out_again
from scheduling.entries import Entry
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.values import Graft, Struck
from scheduling.walk.odds import USUAL, Odds
from scheduling.weather.yard_weather import YardWeather
from tests.scheduling.checks.test_calendar_laws import UNITS, entries, written
from tests.scheduling.story import YARD, may, unit

RAIN: Mapping[str, YardWeather] = {YARD: YardWeather({may(day): 0.0 for day in range(1, 30)})}
CAREFUL = Odds(best=0.95, latest=0.97)
BATCH = Place(YARD, batch="2027-05-03")

Change = tuple[str, int]
CHANGES = st.lists(
    st.tuples(
        st.sampled_from(["write", "strike", "graft", "cut", "rain", "dry", "odds"]),
        st.integers(0, 40),
    ),
    max_size=12,
)


@given(entries(UNITS), CHANGES)
def test_after_any_changes_kept_and_fresh_are_equal(
    story: list[Entry], changes: list[Change]
) -> None:
    log, odds = story[: len(story) // 2], USUAL
    weather: Mapping[str, YardWeather] = {}
    waiting = story[len(story) // 2 :]
    known: WorkedOut | None = None
    for number, (what, which) in enumerate([("", 0), *changes]):
        if what == "write" and waiting:
            log = [*log, *waiting[: 1 + which % 3]]
            waiting = waiting[1 + which % 3 :]
        elif what == "strike" and log:
            gone = log[which % len(log)]
            log = [*log, _strike(gone, number)]
        elif what == "graft":
            log = [*log, written(f"g{number}", BATCH, EntryKind.GRAFTED, Graft(20), 3, number)]
        elif what == "cut":
            # Another worker's memory, or a backup put back: a shorter log than was known.
            log = log[: len(log) - which % (len(log) + 1)]
        weather = {"rain": RAIN, "dry": {}}.get(what, weather)
        odds = CAREFUL if what == "odds" else odds
        known = work_out_again(known, log, weather, odds)
        assert known.calendar == work_out(log, weather, odds)


def _strike(gone: Entry, number: int) -> Entry:
    return written(f"s{number}", gone.place, EntryKind.STRIKE, Struck(gone.uid), 71, 100 + number)


def _season() -> list[Entry]:
    placed = [
        written(f"p{n}", place, EntryKind.CELL_PLACED, None, 3, n) for n, place in enumerate(UNITS)
    ]
    return [*placed, written("e", unit("4a"), EntryKind.EMERGED, None, 6, 9)]


def _worked_on(before: WorkedOut, log: list[Entry], **changed: object) -> set[Place]:
    """The units that were worked out anew."""
    with patch.object(module, "work_out_units", wraps=work_out_units) as spied:
        work_out_again(before, log, **changed)  # type: ignore[arg-type]
    return {place for call in spied.call_args_list for place in call.args[0]}


def test_only_the_unit_that_was_spoken_of_is_worked_out() -> None:
    log = _season()
    before = work_out_again(None, log)
    eggs = written("new", unit("4b"), EntryKind.EGGS, None, 17, 10)
    assert _worked_on(before, [*log, eggs]) == {unit("4b")}


def test_a_strike_works_out_its_own_unit_alone() -> None:
    log = _season()
    before = work_out_again(None, log)
    assert _worked_on(before, [*log, _strike(log[-1], 1)]) == {unit("4a")}


def test_weather_and_odds_work_every_unit_out() -> None:
    log = _season()
    before = work_out_again(None, log)
    assert _worked_on(before, log, weather=RAIN) == set(UNITS)
    assert _worked_on(before, log, odds=CAREFUL) == set(UNITS)


def test_nothing_new_works_nothing_out() -> None:
    log = _season()
    assert _worked_on(work_out_again(None, log), log) == set()


def test_an_entry_that_an_earlier_strike_names_does_not_count() -> None:
    log = [*_season(), written("s", unit("4b"), EntryKind.STRIKE, Struck("late"), 7, 50)]
    before = work_out_again(None, log)
    late = written("late", unit("4b"), EntryKind.EGGS, None, 17, 60)
    assert work_out_again(before, [*log, late]).calendar == work_out([*log, late])


def test_an_entry_of_an_earlier_day_stands_before_later_ones() -> None:
    log = [*_season(), written("n", unit("4b"), EntryKind.NO_EGGS, None, 17, 50)]
    before = work_out_again(None, log)
    earlier = written("o", unit("4b"), EntryKind.EMERGED, None, 5, 60)
    told = work_out_again(before, [*log, earlier])
    assert [entry.on for entry in told.told[unit("4b")]] == [may(3), may(5), may(17)]
