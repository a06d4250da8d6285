"""An instant comes back as the same instant, aware and in UTC."""

from datetime import UTC, datetime, timedelta, timezone

import pytest
from freezegun import freeze_time
from sqlalchemy.exc import StatementError
from sqlalchemy.orm import Session

from scheduling.records.crew_records import CrewRecords, found_crew


def test_an_instant_with_another_offset_comes_back_in_utc(
    session: Session, records: CrewRecords
) -> None:
    ann = records.people()[0]
    in_chicago = datetime(2027, 5, 13, 6, 30, tzinfo=timezone(timedelta(hours=-5)))
    records.update_person(ann.id, next_morning_at=in_chicago)
    session.expire_all()
    found = records.person(ann.id).next_morning_at
    assert found == datetime(2027, 5, 13, 11, 30, tzinfo=UTC)
    assert found is not None
    assert found.tzinfo is UTC


def test_a_naive_instant_is_refused(records: CrewRecords) -> None:
    with pytest.raises(StatementError, match="no time zone"):
        records.update_person(
            records.people()[0].id,
            next_morning_at=datetime(2027, 5, 13, 6, 30),  # noqa: DTZ001 - the fault under test
        )


def test_a_frozen_clock_s_instant_is_stored_like_any_other(session: Session) -> None:
    with freeze_time("2027-05-12 15:30:00"):
        _, ann = found_crew(session, "Bees", "Ann", "UTC", datetime.now(UTC))
    session.expire_all()
    assert CrewRecords(session, ann.crew_id).person(ann.id).created_at == datetime(
        2027, 5, 12, 15, 30, tzinfo=UTC
    )
