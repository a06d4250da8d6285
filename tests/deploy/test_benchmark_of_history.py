"""The benchmark of a long history measures what it says; the numbers are not tested."""

from pathlib import Path

import pytest
from sqlalchemy import func, select

from bot.delivery.message_tables import DeliveryRow, InboxRow, KnownRow, OutboxRow
from bot.delivery.pruning import prune
from deploy.benchmark import history
from deploy.benchmark.history import pruned_by_a_tick, started, with_history
from scheduling.records.engine import open_engine, reading
from tests.scheduling.records.conftest import NOW


def test_its_messages_are_all_of_a_time_in_which_they_are_kept(tmp_path: Path) -> None:
    with_history(tmp_path / "bees", 90, NOW)
    engine = open_engine(f"sqlite:///{tmp_path / 'bees'}")
    with reading(engine) as session:
        rows = [
            session.scalar(select(func.count()).select_from(kind))
            for kind in (OutboxRow, DeliveryRow, KnownRow, InboxRow)
        ]
    assert rows[:3] == [90, 45, 45]
    assert 1 <= (rows[3] or 0) <= 3
    assert prune(engine, NOW) == 0
    engine.dispose()

    assert pruned_by_a_tick(tmp_path / "bees", NOW) == 90 + 45


def test_start_due_and_metrics_are_measured(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(history, "ASKED", 1)
    with_history(tmp_path / "bees", 10, NOW)
    found = started(tmp_path / "bees")

    assert found.polled_s > 0 < found.first_due_ms
    assert (len(found.due_ms), len(found.metrics_ms)) == (1, 1)
    assert found.mib > 10
