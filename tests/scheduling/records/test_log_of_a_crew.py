"""What was said comes back as it was said, in the order it was said."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime

import pytest
from sqlalchemy.orm import Session

from scheduling.entries import Entry, standing
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place
from scheduling.records.crew_records import CrewRecords
from scheduling.values import CellAge, Feed, Struck

Noted = Callable[..., Entry]


def strike(noted: Noted, struck: Entry, message: str) -> Entry:
    place = None if struck.place.unit is None else str(struck.place.unit)
    return noted(place, EntryKind.STRIKE, Struck(struck.uid), message=message)


def test_entries_come_back_whole_and_in_the_order_of_writing(
    session: Session, records: CrewRecords, noted: Noted
) -> None:
    said = [
        noted("4b", EntryKind.CELL_PLACED, CellAge(days_since_egg=14), on=date(2027, 5, 10)),
        noted("4a", EntryKind.FED, Feed(syrup_litres=0.946, ratio="1:1"), message="17"),
        noted("7", EntryKind.EGGS, on=date(2027, 5, 1), text="seen by torch, \u00fcber 3 frames\n"),
        noted(None, EntryKind.NOTE, text="gate is stiff"),
    ]
    said.append(replace(noted("7", EntryKind.GRAFTED), place=Place("River", batch="2 May")))
    records.append(said)
    session.expire_all()
    assert records.entries() == tuple(said)


def test_names_of_yard_and_person_are_taken_whatever_the_capitals(
    records: CrewRecords, noted: Noted
) -> None:
    records.append([noted("4b", EntryKind.EGGS, yard="river", person="ANN")])
    (entry,) = records.entries()
    assert (entry.place.yard, entry.person) == ("River", "Ann")


@pytest.mark.parametrize(
    ("unit", "changes", "missing"),
    [
        ("4b", {"yard": "Hill"}, "yard 'Hill'|unit Hill 4b"),
        ("4d", {}, "unit River 4d"),
        ("4b", {"person": "Zoe"}, "person 'Zoe'"),
    ],
)
def test_what_the_crew_does_not_have_is_refused_and_nothing_of_it_written(
    records: CrewRecords, noted: Noted, unit: str, changes: dict[str, str], missing: str
) -> None:
    with pytest.raises(LookupError, match=missing):
        records.append([noted("4a", EntryKind.EGGS), noted(unit, EntryKind.EGGS, **changes)])
    assert records.entries() == ()


def test_an_entry_is_written_once(records: CrewRecords, noted: Noted) -> None:
    eggs = noted("4b", EntryKind.EGGS)
    with pytest.raises(ValueError, match="one uid"):
        records.append([eggs, eggs])
    records.append([eggs])
    with pytest.raises(ValueError, match="in the log already"):
        records.append([eggs])


def test_one_yard_or_one_season_can_be_asked_for(records: CrewRecords, noted: Noted) -> None:
    records.add_yard("Hill", "UTC")
    old = noted("4b", EntryKind.EGGS, on=date(2026, 7, 1))
    new = noted("4b", EntryKind.NO_EGGS, on=date(2027, 5, 1))
    hill = noted(None, EntryKind.NOTE, yard="Hill")
    records.append([old, new, hill])
    assert records.entries("hill") == (hill,)
    assert records.entries("river", since_day=date(2027, 5, 1)) == (new,)


def test_a_strike_is_given_whatever_day_it_bears(records: CrewRecords, noted: Noted) -> None:
    eggs = noted("4b", EntryKind.EGGS, on=date(2027, 5, 1))
    taken_back = noted("4b", EntryKind.STRIKE, Struck(eggs.uid), on=date(2026, 1, 1))
    records.append([eggs, taken_back])
    assert standing(records.entries(since_day=date(2027, 1, 1))) == []


def test_a_message_is_found_by_its_channel_and_id(records: CrewRecords, noted: Noted) -> None:
    both = [noted(unit, EntryKind.EGGS, message="17") for unit in ("4a", "4b")]
    records.append([*both, noted("4c", EntryKind.EGGS, message="18")])
    assert records.entries_from_message("console", "17") == tuple(both)
    assert records.entries_from_message("telegram", "17") == ()


def test_undo_takes_back_the_newest_message_and_then_the_one_before(
    records: CrewRecords, noted: Noted
) -> None:
    ann = records.people()[0]
    first = noted("4a", EntryKind.EGGS, message="1")
    second = [noted(unit, EntryKind.NO_EGGS, message="2") for unit in ("4b", "4c")]
    records.append([first, *second])
    assert records.last_said(ann.id) == tuple(second)
    records.append([strike(noted, entry, "3") for entry in second])
    assert records.last_said(ann.id) == (first,)
    records.append([strike(noted, first, "4")])
    assert records.last_said(ann.id) == ()


def test_undoing_a_correction_puts_back_what_it_corrected(
    records: CrewRecords, noted: Noted
) -> None:
    ann = records.people()[0]
    wrong = noted("4b", EntryKind.NO_EGGS, message="1")
    correction = [strike(noted, wrong, "2"), noted("4b", EntryKind.EGGS, message="2")]
    records.append([wrong, *correction])
    assert records.last_said(ann.id) == tuple(correction)
    records.append([strike(noted, entry, "3") for entry in correction])
    assert standing(records.entries()) == [wrong]
    assert records.last_said(ann.id) == (wrong,)


def test_undo_takes_back_one_s_own_words_only(
    records: CrewRecords, noted: Noted, now: datetime
) -> None:
    ben = records.add_person("Ben", zone="UTC", now=now)
    records.append([noted("4a", EntryKind.EGGS, message="1")])
    assert records.last_said(ben.id) == ()
