"""What was changed of a crew's set-up is kept by comparing, and put back as it was."""

from datetime import datetime, time, timedelta

import pytest
from sqlalchemy import func, select
from sqlalchemy.orm import Session

from scheduling.entry_kinds import EntryKind
from scheduling.places import UnitName
from scheduling.records.crew_records import CrewRecords, fingerprint_of
from scheduling.records.set_up_changes import ChangedSinceError, SetUpChange, SetUpChangeRow
from scheduling.records.weather_asked import claim_yards
from scheduling.values import Struck
from tests.scheduling.records.conftest import Noted


def ann(records: CrewRecords) -> int:
    return records.people()[0].id


def made(records: CrewRecords, now: datetime, message: str = "m1") -> SetUpChange:
    """The change that a message just made."""
    found = records.change_by(ann(records), "phone", message)
    assert found is not None
    return found


class Changing:
    """Note what a block changes, as one message."""

    def __init__(self, records: CrewRecords, now: datetime, message: str = "m1") -> None:
        self._records, self._now, self._message = records, now, message

    def __enter__(self) -> None:
        self._before = self._records.set_up(ann(self._records))

    def __exit__(self, *_: object) -> None:
        of = (ann(self._records), "phone", self._message)
        self._records.note_change(*of, self._before, self._now)


def test_what_changes_nothing_is_not_kept(
    session: Session, records: CrewRecords, now: datetime
) -> None:
    with Changing(records, now):
        records.set_yard_zone("River", "America/Chicago")

    assert records.last_change(ann(records)) is None
    assert session.scalar(select(func.count()).select_from(SetUpChangeRow)) == 0


def test_every_sort_of_change_is_put_back(records: CrewRecords, now: datetime) -> None:
    before = records.set_up(ann(records))
    with Changing(records, now):
        records.settle_weekdays({5, 6})
        records.settle_odds(best=0.8, give_up=None)
        records.set_location("River", 41.3, -92.6)
        records.rename_yard("River", "Ridge")
        records.remove_units("Ridge", [UnitName(7)])
        records.add_units("Ridge", [UnitName(9)])
        records.update_person(
            ann(records), morning=time(5, 45), morning_asked_at=now, feeder_litres=2.0
        )

    records.undo_change(ann(records), made(records, now), now)

    assert records.set_up(ann(records)) == before
    assert records.yard("River").location is None
    assert made(records, now).undone
    assert records.last_change(ann(records)) is None


def test_a_change_that_another_followed_is_not_put_back(
    records: CrewRecords, now: datetime
) -> None:
    with Changing(records, now):
        records.set_location("River", 41.3, -92.6)
    records.set_location("River", 44.9, -93.2)

    with pytest.raises(ChangedSinceError):
        records.undo_change(ann(records), made(records, now), now)
    assert records.yard("River").location == (44.9, -93.2)


def test_entries_written_later_are_newer_whatever_the_clock_says(
    records: CrewRecords, noted: Noted, now: datetime
) -> None:
    earlier = noted("4a", EntryKind.EGGS)
    records.append([earlier])
    with Changing(records, now + timedelta(days=1)):
        records.settle_weekdays({5})
    later = noted("4b", EntryKind.EGGS)
    records.append([later])

    assert records.is_newer(made(records, now), [earlier])
    assert not records.is_newer(made(records, now), [later])


def test_a_removed_yard_is_out_of_sight_and_its_log_stays(
    session: Session, records: CrewRecords, noted: Noted, now: datetime
) -> None:
    records.set_location("River", 41.3, -92.6)
    records.update_person(ann(records), yard="River")
    records.append([noted("4a", EntryKind.EGGS)])

    records.remove_yard("River", now)

    assert records.yards() == ()
    assert dict(records.at_a_glance().by_yard) == {}
    assert records.person(ann(records)).yard is None
    assert [str(entry.place) for entry in records.entries()] == ["River (removed) 4a"]
    assert claim_yards(session, now, now + timedelta(minutes=10), 10) == ()
    records.add_yard("River", "UTC")
    records.remove_yard("River", now)
    assert records.at_a_glance().removed == {"River (removed)", "River (removed 2)"}


def test_what_was_said_of_a_unit_that_is_gone_can_be_struck(
    records: CrewRecords, noted: Noted
) -> None:
    told = noted("7", EntryKind.EGGS)
    records.append([told])
    records.remove_units("River", [UnitName(7)])

    records.append([noted("7", EntryKind.STRIKE, Struck(told.uid))])
    with pytest.raises(LookupError):
        records.append([noted("7", EntryKind.EGGS)])


def test_a_morning_made_ready_is_outdated_by_another_unit_of_the_same_number(
    session: Session, records: CrewRecords, now: datetime
) -> None:
    crew_id = records.crew().id
    before = fingerprint_of(session, crew_id)
    with Changing(records, now):
        records.remove_units("River", [UnitName(7)])
        records.add_units("River", [UnitName(8)])

    assert fingerprint_of(session, crew_id) != before
