"""Every kind of entry changes a unit, or leaves it alone for a reason."""

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.entries import Entry
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.units.effects import EFFECTS, WITHOUT_EFFECT, fold
from scheduling.units.state import Stage, UnitState
from scheduling.values import (
    Brood,
    DayWeather,
    Flying,
    Forage,
    Pattern,
    PutOff,
    Stores,
    Struck,
    Value,
    YardForage,
)
from tests.scheduling.story import Story, may, unit

VALUES: dict[EntryKind, Value] = {
    EntryKind.STORES: Stores(0.5),
    EntryKind.WEATHER_SEEN: DayWeather(Flying.NOT_FLYING),
    EntryKind.FORAGE_SEEN: YardForage(Forage.FLOW),
    EntryKind.PUT_OFF: PutOff(may(20), CheckKind.LAYING),
    EntryKind.STRIKE: Struck("e0"),
    EntryKind.SEALED_BROOD: Brood(Pattern.GOOD),
}

BEFORE = {
    "a unit with a cell": Story().on(1, EntryKind.MADE_UP).on(2, EntryKind.CELL_PLACED),
    "a caged queen": Story().on(2, EntryKind.CAGED_QUEEN_PLACED),
    "a unit without a queen": Story().on(1, EntryKind.MADE_UP),
}


def told(kind: EntryKind, number: int) -> Entry:
    return Story().on(number, kind, VALUES.get(kind)).entries[0]


def before_and_after(story: Story, kind: EntryKind) -> tuple[UnitState, UnitState]:
    entry = told(kind, 6)
    return fold(unit(), story.entries), fold(unit(), [*story.entries, entry])


def without_the_log(state: UnitState) -> dict[str, object]:
    facts = state._asdict()
    return {name: fact for name, fact in facts.items() if name not in {"entries", "looked_on"}}


def test_no_kind_is_forgotten() -> None:
    assert set(EFFECTS) == set(EntryKind)
    assert list(ENTRY_FACTS) == list(EntryKind)


@pytest.mark.parametrize("kind", sorted(set(EntryKind) - set(WITHOUT_EFFECT)))
def test_a_kind_changes_the_unit(kind: EntryKind) -> None:
    changes = [before_and_after(story, kind) for story in BEFORE.values()]
    assert any(without_the_log(old) != without_the_log(new) for old, new in changes)


@pytest.mark.parametrize("kind", sorted(WITHOUT_EFFECT))
def test_a_kind_leaves_the_unit_alone_and_says_why(kind: EntryKind) -> None:
    assert WITHOUT_EFFECT[kind]
    for story in BEFORE.values():
        old, new = before_and_after(story, kind)
        assert without_the_log(old) == without_the_log(new)


@pytest.mark.parametrize("kind", sorted(set(EntryKind) - {EntryKind.STRIKE}))
def test_every_kind_can_be_the_first_thing_told(kind: EntryKind) -> None:
    state = fold(unit(), [told(kind, 6)])
    assert state.entries == (told(kind, 6),)
    assert (state.stage is Stage.EMPTY) == (
        kind in WITHOUT_EFFECT
        or kind
        in {
            EntryKind.RELEASED,
            EntryKind.STILL_CAGED,
            EntryKind.NO_EGGS,
            EntryKind.OWN_CELLS,
            EntryKind.FED,
            EntryKind.STORES,
            EntryKind.TRAP_SET,
            EntryKind.TRAP_SERVICED,
            EntryKind.BROOD_ADDED,
            EntryKind.ROBBED,
            EntryKind.PUT_OFF,
        }
    )
