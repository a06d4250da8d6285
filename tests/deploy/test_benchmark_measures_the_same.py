"""What the benchmark measures against does the same work; its own numbers are not tested."""

from concurrent.futures import ProcessPoolExecutor
from datetime import timedelta
from multiprocessing import get_context

import numpy as np
import pytest

from deploy.bench import main
from deploy.benchmark.invented_crew import FIRST_DAY, UNITS, invented_crew
from deploy.benchmark.measured import peak_mib
from deploy.benchmark.plain_way import job_for_each, plain_recompute, plain_walk
from scheduling.checks.calendar import work_out
from scheduling.entry_kinds import EntryKind
from scheduling.units.state import Stage
from scheduling.walk.case import Case, Sight
from scheduling.walk.model import walk
from tests.scheduling.walk.queens import CELL, OUT, always_raining, raining, seen

CASES = {
    "a cell": CELL,
    "rain": raining(CELL, 8, 9, 10, 11),
    "rain for ever": always_raining(OUT),
    "a look": seen(raining(CELL, 9, 10), (4, Sight.OUT), (14, Sight.NO_EGGS)),
    "a virgin late": seen(raining(OUT, *range(5, 22)), (20, Sight.VIRGIN)),
}


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_the_plain_loop_walks_where_the_walk_goes(case: Case) -> None:
    assert np.allclose(plain_walk(case), (walk(case).eggs, walk(case).failed))


def test_an_invented_crew_waits_for_every_queen() -> None:
    calendar = work_out(*invented_crew(1))
    assert len(calendar.units) == UNITS
    assert {state.stage for state in calendar.units.values()} == {Stage.VIRGIN}
    assert len(calendar.forecasts) == UNITS


def test_a_crew_is_invented_alike_each_time_and_unlike_the_next() -> None:
    assert invented_crew(1, 9) == invented_crew(1, 9)
    assert invented_crew(1, 9) != invented_crew(2, 9)
    log, weather = invented_crew(1, 9)
    assert all(FIRST_DAY - timedelta(1) <= entry.on for entry in log)
    assert set(weather) == {entry.place.yard for entry in log}


def test_a_crew_with_no_two_units_alike_shares_nothing() -> None:
    log, _weather = invented_crew(1, all_different=True)
    stocked = [entry.value for entry in log if entry.kind is EntryKind.MADE_UP]
    assert len(set(stocked)) == UNITS


@pytest.mark.parametrize("all_different", [False, True])
def test_the_plain_way_finds_the_same_checks(all_different: bool) -> None:
    log, weather = invented_crew(4, 24, all_different=all_different)
    assert plain_recompute(log, weather) == work_out(log, weather).checks


def test_each_check_gets_its_job() -> None:
    calendar = work_out(*invented_crew(1, 8))
    checks = [check for found in calendar.checks.values() for check in found]
    assert job_for_each(checks) == len(checks) > 8


def test_a_new_process_does_not_start_with_the_peak_of_its_parent() -> None:
    held = bytearray(200 * 2**20)
    held[::4096] = b"x" * (len(held) // 4096)
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
        assert pool.submit(peak_mib).result() < 200 < peak_mib()


def test_a_benchmark_that_is_not_there_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == main(["nothing"]) == main(["recompute", "many"]) == 2
    assert capsys.readouterr().err.startswith("usage: python3 deploy/bench.py WHAT")
