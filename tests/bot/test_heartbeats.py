"""Signs of life are noted in memory and written down together."""

from datetime import UTC, datetime, timedelta

from sqlalchemy import Engine

from bot.monitoring import beat, beats_in, last_beat, take_unwritten, write_beats
from scheduling.records.engine import reading, writing

NOW = datetime(2027, 5, 12, 6, 30, tzinfo=UTC)


def test_a_beat_is_given_once_to_be_written_and_still_known() -> None:
    take_unwritten()
    beat("tick:outbox", NOW)
    beat("tick:outbox", NOW + timedelta(seconds=1))

    assert take_unwritten() == {"tick:outbox": NOW + timedelta(seconds=1)}
    assert take_unwritten() == {}
    assert last_beat("tick:outbox") == NOW + timedelta(seconds=1)


def test_a_later_beat_takes_the_place_of_the_one_before(engine: Engine) -> None:
    for minutes in range(2):
        with writing(engine) as session:
            at = NOW + timedelta(minutes=minutes)
            write_beats(session, {"tick:outbox": at, f"poll:{minutes}": at})
    with writing(engine) as session:
        write_beats(session, {})

    with reading(engine) as session:
        assert beats_in(session) == {
            "tick:outbox": NOW + timedelta(minutes=1),
            "poll:0": NOW,
            "poll:1": NOW + timedelta(minutes=1),
        }
