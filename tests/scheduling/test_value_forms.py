"""Every value has one plain form and one text, and both lead back to the very same value."""

import json
from dataclasses import fields
from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduling.check_kinds import CheckKind
from scheduling.entry_facts import entry_kinds
from scheduling.entry_kinds import EntryKind
from scheduling.value_forms import (
    Plain,
    value_from_json,
    value_from_text,
    value_to_json,
    value_to_text,
)
from scheduling.values import (
    Brood,
    CellAge,
    DayWeather,
    Fate,
    Feed,
    Flying,
    Forage,
    Graft,
    MakeUp,
    Moved,
    Pattern,
    PutOff,
    Stores,
    Struck,
    Taken,
    TrapCount,
    Value,
    VirginAge,
    YardForage,
)

amounts = st.floats(min_value=0, allow_infinity=False, allow_nan=False)
shares = st.floats(min_value=0, max_value=1)
counts = st.integers(min_value=0, max_value=10**12)
words = st.text(max_size=30) | st.sampled_from(["?", "10", "a=b; c=d", '"', "x; y", " x ", ""])


def known(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


VALUES: dict[EntryKind, st.SearchStrategy[Any]] = {
    EntryKind.MADE_UP: st.builds(
        MakeUp, known(amounts), known(shares), known(amounts), known(amounts), known(amounts)
    ),
    EntryKind.GRAFTED: st.builds(Graft, known(counts), known(words), known(amounts)),
    EntryKind.CELL_PLACED: st.builds(CellAge, amounts) | st.builds(CellAge, st.none(), amounts),
    EntryKind.VIRGIN_PLACED: st.builds(VirginAge, amounts),
    EntryKind.SEALED_BROOD: st.builds(Brood, st.sampled_from(Pattern)),
    EntryKind.FED: st.builds(Feed, known(amounts), known(words), known(amounts), known(amounts)),
    EntryKind.STORES: st.builds(Stores, amounts),
    EntryKind.TRAP_SERVICED: st.builds(TrapCount, counts),
    EntryKind.QUEEN_TAKEN: st.builds(Taken, known(st.sampled_from(Fate)), known(words)),
    EntryKind.WEATHER_SEEN: st.builds(DayWeather, st.sampled_from(Flying)),
    EntryKind.FORAGE_SEEN: st.builds(YardForage, st.sampled_from(Forage)),
    EntryKind.PUT_OFF: st.builds(PutOff, st.dates(), known(st.sampled_from(CheckKind))),
    EntryKind.STRIKE: st.builds(Struck, words),
    EntryKind.MOVED: st.builds(Moved, words),
}

spoken = st.sampled_from(list(VALUES)).flatmap(lambda kind: st.tuples(st.just(kind), VALUES[kind]))


def test_every_kind_that_carries_a_value_is_tried_here() -> None:
    assert VALUES.keys() == entry_kinds(lambda facts: facts.value is not None)


@given(spoken)
def test_a_value_comes_back_from_json(said: tuple[EntryKind, Value]) -> None:
    kind, value = said
    assert value_from_json(kind, json.loads(json.dumps(value_to_json(value)))) == value


@given(spoken)
def test_a_value_comes_back_from_its_text(said: tuple[EntryKind, Value]) -> None:
    kind, value = said
    assert value_from_text(kind, value_to_text(value)) == value


@given(spoken)
def test_text_of_a_value_is_one_line(said: tuple[EntryKind, Value]) -> None:
    assert len(value_to_text(said[1]).splitlines()) <= 1


def test_a_line_end_of_another_alphabet_does_not_break_the_line() -> None:
    assert value_to_text(Graft(mother="ada\x85ida")).splitlines() == ['mother="ada\\u0085ida"']


@given(spoken)
def test_a_value_read_back_has_the_types_it_says(said: tuple[EntryKind, Value]) -> None:
    kind, value = said
    back = value_from_text(kind, value_to_text(value))
    assert back is not None
    for field in fields(back):
        assert type(getattr(back, field.name)) is type(getattr(value, field.name))


@pytest.mark.parametrize(
    ("kind", "value", "form", "text"),
    [
        (EntryKind.EGGS, None, None, ""),
        (EntryKind.CELL_PLACED, CellAge(days_since_graft=10), 10, "10"),
        (EntryKind.CELL_PLACED, CellAge(days_since_graft=10.5), 10.5, "10.5"),
        (EntryKind.CELL_PLACED, CellAge(days_since_egg=14), "14e", "14e"),
        (EntryKind.STORES, Stores(0.25), 0.25, "0.25"),
        (EntryKind.STORES, Stores(2.0), 2, "2"),
        (EntryKind.TRAP_SERVICED, TrapCount(12), 12, "12"),
        (EntryKind.FED, Feed(syrup_litres=0.946), 0.946, "0.946"),
        (EntryKind.FED, Feed(fondant_kg=1.0), {"fondant_kg": 1}, "fondant_kg=1"),
        (
            EntryKind.FED,
            Feed(syrup_litres=0.946, ratio="1:1"),
            {"syrup_litres": 0.946, "ratio": "1:1"},
            "syrup_litres=0.946; ratio=1:1",
        ),
        (EntryKind.FED, Feed(), {}, "?"),
        (EntryKind.QUEEN_TAKEN, Taken(Fate.SOLD), "sold", "sold"),
        (
            EntryKind.QUEEN_TAKEN,
            Taken(Fate.USED, "hive 3; north"),
            {"fate": "used", "destination": "hive 3; north"},
            'fate=used; destination="hive 3; north"',
        ),
        (EntryKind.SEALED_BROOD, Brood(Pattern.SPOTTY), "spotty", "spotty"),
        (EntryKind.WEATHER_SEEN, DayWeather(Flying.NOT_FLYING), "not_flying", "not_flying"),
        (EntryKind.FORAGE_SEEN, YardForage(Forage.DEARTH), "dearth", "dearth"),
        (EntryKind.PUT_OFF, PutOff(date(2027, 5, 14)), "2027-05-14", "2027-05-14"),
        (
            EntryKind.PUT_OFF,
            PutOff(date(2027, 5, 14), CheckKind.LAYING),
            {"until": "2027-05-14", "check": "laying"},
            "until=2027-05-14; check=laying",
        ),
    ],
)
def test_forms_as_a_keeper_would_read_them(
    kind: EntryKind, value: Value | None, form: Plain, text: str
) -> None:
    assert value_to_json(value) == form
    assert value_to_text(value) == text
    assert value_from_json(kind, form) == value
    assert value_from_text(kind, text) == value


@pytest.mark.parametrize(
    ("kind", "text", "wrong"),
    [
        (EntryKind.EGGS, "3", "eggs carries no value"),
        (EntryKind.STORES, "", "says nothing without its value"),
        (EntryKind.STORES, "half", "deep_frames must be a number such as 0.5, not 'half'"),
        (EntryKind.STORES, "0,5", "deep_frames must be a number"),
        (EntryKind.STORES, "-1", "deep_frames must be a number"),
        (EntryKind.STORES, "nan", "deep_frames must be a number"),
        (EntryKind.STORES, "9" * 400, "deep_frames must be a number from 0 up"),
        (EntryKind.STORES, "?", "stores needs its deep_frames"),
        (EntryKind.TRAP_SERVICED, "2.5", "beetles must be a whole number"),
        (EntryKind.MADE_UP, "sealed_share=80", "sealed_share must be from 0 to 1"),
        (EntryKind.CELL_PLACED, "ripe", "not a cell's age"),
        (EntryKind.CELL_PLACED, "days=10", "a cell's age is one number"),
        (EntryKind.FED, "honey=1", "fed has no honey; it may have syrup_litres"),
        (EntryKind.FED, "syrup_litres=1; syrup_litres=2", "syrup_litres is given twice"),
        (EntryKind.FED, "syrup_litres=1; two", "'two' is not of the form"),
        (EntryKind.QUEEN_TAKEN, "lost", "fate must be one of sold, used, banked, not 'lost'"),
        (EntryKind.QUEEN_TAKEN, 'destination="x\\q"', "quotes"),
        (EntryKind.PUT_OFF, "friday", "until must be a day such as 2027-05-12"),
        (EntryKind.PUT_OFF, "2027-02-30", "until must be a day"),
        (EntryKind.PUT_OFF, "check=laying", "put_off needs its until"),
    ],
)
def test_what_cannot_be_such_a_value_is_refused_in_words(
    kind: EntryKind, text: str, wrong: str
) -> None:
    with pytest.raises(ValueError, match=wrong.replace("?", r"\?")):
        value_from_text(kind, text)


@pytest.mark.parametrize("form", [-1, float("inf"), float("nan"), True])
def test_a_number_in_json_must_be_one_too(form: float) -> None:
    with pytest.raises(ValueError, match="from 0 up"):
        value_from_json(EntryKind.STORES, form)
