"""What a watcher reads: instants rather than ages, and what each carrier charged for."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from prometheus_client.parser import text_string_to_metric_families
from sqlalchemy import Engine

from bot.channels.channel import OutgoingMessage
from bot.delivery import outbox
from bot.delivery.outbox import Recipient
from bot.delivery.rules import Purpose
from bot.monitoring import write_beats
from bot.version import version
from bot.web.app import metrics_of
from scheduling.records.engine import writing

NOW = datetime(2027, 5, 12, 6, 30, tzinfo=UTC)
AN_HOUR_AGO = NOW - timedelta(hours=1)

Told = Callable[[], dict[str, float]]


@pytest.fixture
def told(engine: Engine) -> Told:
    """Read every sample by its name and labels, with Prometheus' own parser."""

    def read() -> dict[str, float]:
        text = metrics_of(engine, lambda: NOW)().decode()
        return {
            " ".join([sample.name, *sorted(sample.labels.values())]): sample.value
            for family in text_string_to_metric_families(text)
            for sample in family.samples
        }

    return read


def test_an_instant_is_told_as_it_is(engine: Engine, told: Told) -> None:
    with writing(engine) as session:
        write_beats(session, {"running:telegram": AN_HOUR_AGO})
        to, outgoing = Recipient("telegram", "11"), OutgoingMessage("11", "Look for eggs 1")
        outbox.plan(session, "a", Purpose.ANSWER, to, outgoing, AN_HOUR_AGO)
    found, at = told(), AN_HOUR_AGO.timestamp()

    assert found["yardbell_heartbeat_timestamp_seconds running:telegram"] == at
    assert found["yardbell_outbox_oldest_planned_timestamp_seconds"] == at
    assert found["yardbell_silent_since_timestamp_seconds telegram"] == at
    assert not [name for name in found if "age" in name.split("_")]


def test_what_never_was_has_no_instant(told: Told) -> None:
    assert [name for name in told() if "timestamp" in name] == []


def test_the_version_is_told(told: Told) -> None:
    assert told()[f"yardbell_build_info {version()}"] == 1
