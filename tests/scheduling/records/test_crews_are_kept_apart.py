"""No method of one crew's records reaches another crew, whatever number or name it is given."""

import inspect
from collections.abc import Callable
from datetime import UTC, date, datetime

import pytest
from sqlalchemy.orm import Session

from scheduling.entries import Entry, standing
from scheduling.entry_kinds import EntryKind
from scheduling.places import UnitName
from scheduling.records.addresses import Address
from scheduling.records.crew_records import CrewRecords, found_crew
from scheduling.records.set_up_changes import SetUpChange
from scheduling.records.weather_asked import claim_yards, keep_answer
from scheduling.values import Struck
from scheduling.walk.odds import USUAL
from scheduling.weather.hour import HourOfWeather

Noted = Callable[..., Entry]
Trial = Callable[[CrewRecords, int], object]

HILL = "Hill"
"""A yard of the strangers."""


@pytest.fixture
def strangers(session: Session, now: datetime, noted: Noted) -> CrewRecords:
    crew, sam = found_crew(session, "Strangers", "Sam", "UTC", now)
    records = CrewRecords(session, crew.id)
    records.add_yard(HILL, "UTC")
    records.add_units(HILL, [UnitName(1, "a")])
    records.add_address(sam.id, "telegram", "9009")
    eggs = noted("1a", EntryKind.EGGS, uid="theirs", yard=HILL, person="Sam", message="m9")
    records.append([eggs])
    records.make_invite(sam.id, now)
    records.set_location(HILL, 51.5, 0)
    (hill,) = claim_yards(session, now, now, 10)
    keep_answer(session, hill, [HourOfWeather(now, temperature_c=20)], now, now)
    return records


REFUSED: dict[str, Callable[[datetime, Noted], Trial]] = {
    "person": lambda now, noted: lambda ours, sam: ours.person(sam),
    "update_person": lambda now, noted: lambda ours, sam: ours.update_person(sam, stopped=True),
    "addresses": lambda now, noted: lambda ours, sam: ours.addresses(sam),
    "add_address": lambda now, noted: lambda ours, sam: ours.add_address(sam, "telegram", "1"),
    "remove_address": lambda now, noted: (
        lambda ours, sam: ours.remove_address(sam, Address("telegram", "9009"))
    ),
    "yard": lambda now, noted: lambda ours, sam: ours.yard(HILL),
    "set_location": lambda now, noted: lambda ours, sam: ours.set_location(HILL, 1, 1),
    "set_yard_zone": lambda now, noted: lambda ours, sam: ours.set_yard_zone(HILL, "UTC"),
    "rename_yard": lambda now, noted: lambda ours, sam: ours.rename_yard(HILL, "Top"),
    "remove_yard": lambda now, noted: lambda ours, sam: ours.remove_yard(HILL, now),
    "remove_units": lambda now, noted: (
        lambda ours, sam: ours.remove_units(HILL, [UnitName(1, "a")])
    ),
    "set_up": lambda now, noted: lambda ours, sam: ours.set_up(sam),
    "note_change": lambda now, noted: lambda ours, sam: ours.note_change(sam, "t", "1", {}, now),
    "undo_change": lambda now, noted: (
        lambda ours, sam: ours.undo_change(
            sam, SetUpChange(1, "t", "1", now, 0, {}, undone=False), now
        )
    ),
    "add_units": lambda now, noted: lambda ours, sam: ours.add_units(HILL, [UnitName(2)]),
    "units": lambda now, noted: lambda ours, sam: ours.units(HILL),
    "append": lambda now, noted: (
        lambda ours, sam: ours.append([noted("1a", EntryKind.NO_EGGS, yard=HILL)])
    ),
    "entries": lambda now, noted: lambda ours, sam: ours.entries(HILL),
    "last_said": lambda now, noted: lambda ours, sam: ours.last_said(sam),
    "make_invite": lambda now, noted: lambda ours, sam: ours.make_invite(sam, now),
}
"""Methods that name something: a thing of the strangers is as good as none."""

BEFORE = datetime(2027, 5, 1, tzinfo=UTC)
NOTHING_CHANGED = SetUpChange(1, "telegram", "1", BEFORE, 0, {}, undone=False)

BLIND: dict[str, tuple[Trial, object]] = {
    "people": (lambda ours, sam: [person.name for person in ours.people()], ["Ann"]),
    "person_named": (lambda ours, sam: ours.person_named("Sam"), None),
    "free_name": (lambda ours, sam: ours.free_name("Sam"), "Sam"),
    "yards": (lambda ours, sam: [yard.name for yard in ours.yards()], ["River"]),
    "entries": (lambda ours, sam: ours.entries(), ()),
    "entries_from_message": (lambda ours, sam: ours.entries_from_message("console", "m9"), ()),
    "known_uids": (lambda ours, sam: ours.known_uids(["theirs"]), frozenset()),
    "last_change": (lambda ours, sam: ours.last_change(sam), None),
    "change_by": (lambda ours, sam: ours.change_by(sam, "console", "m9"), None),
    "open_invites": (lambda ours, sam: ours.open_invites(None, BEFORE), ()),
    "withdraw_invite": (lambda ours, sam: ours.withdraw_invite("AAAAAA", BEFORE), False),
    "is_newer": (lambda ours, sam: ours.is_newer(NOTHING_CHANGED, ()), True),
    "crew": (lambda ours, sam: ours.crew().name, "Ann's bees"),
    "weather": (lambda ours, sam: ours.weather(date(2027, 5, 1)), {}),
    "weather_about": (lambda ours, sam: ours.weather_about(date(2027, 5, 1)), {}),
    "calendar": (lambda ours, sam: ours.calendar(ours.entries(), {}, USUAL, 1.0).units, {}),
    "at_a_glance": (lambda ours, sam: ours.at_a_glance().zones, {"River": "America/Chicago"}),
}
"""Methods that search: what the strangers have is not there."""

MAKES_OUR_OWN = {
    *("add_person", "add_yard", "newcomer", "settle_odds", "settle_weekdays", "settle_feeder"),
}
"""Methods that name nothing that exists; they are tried below."""


def everything(records: CrewRecords) -> tuple[object, ...]:
    people = records.people()
    addresses = [records.addresses(person.id) for person in people]
    weather = records.weather(date(2027, 5, 1))
    stands = records.units(HILL), records.entries()
    return records.crew(), people, addresses, records.yards(), stands, weather


@pytest.mark.parametrize("method", REFUSED)
def test_a_thing_of_another_crew_is_as_good_as_none(
    records: CrewRecords, strangers: CrewRecords, now: datetime, noted: Noted, method: str
) -> None:
    before, sam = everything(strangers), strangers.people()[0].id
    with pytest.raises(LookupError):
        REFUSED[method](now, noted)(records, sam)
    assert everything(strangers) == before


@pytest.mark.parametrize("method", BLIND)
def test_a_search_finds_nothing_of_another_crew(
    records: CrewRecords, strangers: CrewRecords, method: str
) -> None:
    search, found = BLIND[method]
    assert search(records, strangers.people()[0].id) == found


def test_another_crew_s_names_are_free_for_us(
    records: CrewRecords, strangers: CrewRecords, now: datetime
) -> None:
    before = everything(strangers)
    records.add_yard(HILL, "UTC")
    sam = records.add_person("Sam", zone="UTC", now=now)
    assert records.newcomer("Sam", zone="UTC", now=now) == sam
    assert everything(strangers) == before


def test_what_we_settle_on_is_ours_alone(records: CrewRecords, strangers: CrewRecords) -> None:
    before = everything(strangers)
    records.settle_odds(best=0.7)
    records.settle_weekdays({5})
    records.settle_feeder(1.9)
    assert everything(strangers) == before


def test_what_is_cached_of_a_crew_is_used_for_it_alone(
    records: CrewRecords, strangers: CrewRecords
) -> None:
    theirs = strangers.calendar(strangers.entries(), {}, USUAL, 1.0)
    assert theirs.units
    assert not records.calendar(records.entries(), {}, USUAL, 1.0).units


def test_a_copy_of_another_crew_s_entry_is_no_clash(
    records: CrewRecords, strangers: CrewRecords, noted: Noted
) -> None:
    ours = noted("4b", EntryKind.EGGS, uid="theirs")
    records.append([ours])
    assert records.entries() == (ours,)


def test_our_strike_of_their_entry_does_nothing_to_it(
    records: CrewRecords, strangers: CrewRecords, noted: Noted
) -> None:
    records.append([noted("4b", EntryKind.STRIKE, Struck("theirs"))])
    assert [entry.uid for entry in standing(strangers.entries())] == ["theirs"]


def test_a_talk_cannot_be_turned_to_another_crew_s_yard(
    records: CrewRecords, strangers: CrewRecords
) -> None:
    with pytest.raises(LookupError):
        records.update_person(records.people()[0].id, yard=HILL)


def test_every_public_method_is_tried_here() -> None:
    methods = {
        name
        for name, _ in inspect.getmembers(CrewRecords, inspect.isfunction)
        if not name.startswith("_")
    }
    assert methods == REFUSED.keys() | BLIND.keys() | MAKES_OUR_OWN
