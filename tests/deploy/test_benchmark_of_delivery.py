"""Each part of the benchmark does what it says it measures; the numbers are not tested."""

from pathlib import Path

import pytest
from sqlalchemy import func, select

from deploy.benchmark import replies, weight
from deploy.benchmark.many_crews import fill
from deploy.benchmark.rush import CountingCarrier, within_limits
from deploy.standins.databases import make_tables
from scheduling.records.engine import open_engine, reading
from scheduling.records.tables import EntryRow
from tests.scheduling.records.conftest import NOW


def test_findings_are_recorded_and_due_is_answered(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(replies, "WARM_UP", 1)
    found = replies.replies_measured(crews=1, replies=2)
    assert list(found) == ["a bare bot's echo", "a finding", '"due"']
    assert all(len(took.milliseconds) == 2 and took.half > 0 for took in found.values())
    assert all(took.half <= took.nearly_all for took in found.values())


def test_both_bots_are_weighed_at_their_first_poll_and_after_an_answer() -> None:
    for each in weight.weights(1).values():
        assert each.seconds > 0
        assert 10 < each.polling_mib < each.answered_mib + 1


def test_a_rush_keeps_to_the_limits_and_reaches_everybody() -> None:
    rushed = within_limits(5)
    assert (rushed.people, rushed.refused, rushed.twice) == (5, 0, 0)
    assert rushed.share > 0


def test_the_carrier_refuses_what_is_too_much_in_a_second() -> None:
    carrier = CountingCarrier()
    faults = [carrier.next_fault("sendMessage").status for _ in range(31)]
    assert faults == [200] * 30 + [429]
    assert (carrier.refused, len(carrier.began)) == (1, 31)


def test_a_full_database_is_of_whole_seasons(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'full'}"
    make_tables(url)
    engine = open_engine(url)
    fill(engine, 1, NOW, "telegram", 7)
    with reading(engine) as session:
        entries, units = session.execute(
            select(func.count(), func.count(func.distinct(EntryRow.yard_id)))
        ).one()
    engine.dispose()
    assert entries > 1000
    assert units == 4
