"""A flood of questions for the metrics costs one count over the messages, not one each."""

from datetime import UTC, datetime

from sqlalchemy import Engine, event

from bot.web.app import STATUS_KEPT, metrics_of

NOW = datetime(2027, 5, 12, 6, 30, tzinfo=UTC)


class Clock:
    """The time it is."""

    def __init__(self) -> None:
        self.now = NOW

    def __call__(self) -> datetime:
        return self.now


def test_the_messages_are_counted_once_however_often_it_is_asked(engine: Engine) -> None:
    clock, counts = Clock(), list[str]()

    @event.listens_for(engine, "before_cursor_execute")
    def _note(*told: object) -> None:
        counts.extend(str(said) for said in told[2:3] if "GROUP BY outbox.state" in str(said))

    metrics = metrics_of(engine, clock)
    for _ in range(50):
        assert b"yardbell_people 0.0" in metrics()
    assert len(counts) == 1

    clock.now = NOW + STATUS_KEPT
    metrics()
    assert len(counts) == 2

    clock.now = NOW
    metrics()
    assert len(counts) == 3
