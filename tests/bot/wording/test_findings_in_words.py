from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.sms.segments import is_gsm7
from bot.wording.findings import finding_words, value_words
from scheduling.check_kinds import CheckKind
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
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


@pytest.mark.parametrize(
    ("kind", "value", "words"),
    [
        (
            EntryKind.MADE_UP,
            MakeUp(1, 0.6, None, 2, 0.5),
            "made up, 1 frame brood, 2 shakes of bees, 0.5 frame food, brood 60% sealed",
        ),
        (EntryKind.MADE_UP, None, "made up"),
        (EntryKind.GRAFTED, Graft(40, "12b", 18), "grafted 40 from 12b, larvae 18 hours"),
        (EntryKind.GRAFTED, Graft(mother="the dark one"), "grafted from the dark one"),
        (EntryKind.CELL_PLACED, CellAge(days_since_graft=10), "cell in, 10 days from graft"),
        (EntryKind.CELL_PLACED, CellAge(days_since_egg=14), "cell in, 14 days from egg"),
        (EntryKind.CELL_PLACED, None, "cell in"),
        (EntryKind.VIRGIN_PLACED, VirginAge(0), "virgin in, 0 days old"),
        (EntryKind.VIRGIN_PLACED, VirginAge(1), "virgin in, 1 day old"),
        (EntryKind.SEALED_BROOD, Brood(Pattern.GOOD), "good sealed brood"),
        (EntryKind.SEALED_BROOD, Brood(Pattern.SPOTTY), "spotty sealed brood"),
        (EntryKind.FED, Feed(0.946, "1:1"), "fed 0.95 l syrup 1:1"),
        (EntryKind.FED, Feed(ratio="2:1"), "fed syrup 2:1"),
        (
            EntryKind.FED,
            Feed(honey_frames=1, fondant_kg=0.907),
            "fed 1 frame honey, 0.91 kg fondant",
        ),
        (EntryKind.FED, Feed(), "fed"),
        (EntryKind.STORES, Stores(0.5), "food 0.5 deep frame"),
        (EntryKind.STORES, Stores(0), "no food"),
        (EntryKind.TRAP_SERVICED, TrapCount(1), "trap done, 1 beetle"),
        (EntryKind.TRAP_SERVICED, TrapCount(0), "trap done, 0 beetles"),
        (EntryKind.QUEEN_TAKEN, Taken(Fate.USED, "11"), "queen used, to 11"),
        (EntryKind.QUEEN_TAKEN, Taken(Fate.BANKED), "queen banked"),
        (EntryKind.QUEEN_TAKEN, Taken(), "queen taken"),
        (EntryKind.WEATHER_SEEN, DayWeather(Flying.NOT_FLYING), "no flying weather"),
        (EntryKind.WEATHER_SEEN, DayWeather(Flying.FLYING), "flying weather"),
        (EntryKind.FORAGE_SEEN, YardForage(Forage.FLOW), "nectar flow"),
        (EntryKind.FORAGE_SEEN, YardForage(Forage.DEARTH), "dearth"),
        (EntryKind.PUT_OFF, PutOff(date(2026, 5, 15)), "put off to Fri 15 May"),
        (
            EntryKind.PUT_OFF,
            PutOff(date(2026, 5, 15), CheckKind.LAYING),
            "eggs put off to Fri 15 May",
        ),
        (EntryKind.STRIKE, Struck("any"), "taken back"),
        (EntryKind.EMERGED, None, "out"),
        (EntryKind.NO_EGGS, None, "no eggs"),
    ],
)
def test_a_finding_in_the_keepers_words(kind: EntryKind, value: Value | None, words: str) -> None:
    assert finding_words(kind, value) == words


def test_a_note_is_given_back_as_it_was_written() -> None:
    assert finding_words(EntryKind.NOTE, None, "temper bad") == "note: temper bad"
    assert finding_words(EntryKind.NOTE) == "note"
    assert finding_words(EntryKind.EGGS, None, "two in one cell") == "eggs (two in one cell)"


@pytest.mark.parametrize("kind", EntryKind)
def test_every_kind_has_words_of_its_own(kind: EntryKind) -> None:
    others = {finding_words(other) for other in EntryKind if other is not kind}
    assert finding_words(kind) not in others
    assert is_gsm7(finding_words(kind))


ANY_VALUE = st.one_of(
    *(
        st.from_type(facts.value)
        for facts in ENTRY_FACTS.values()
        if facts.value not in (None, CellAge)
    ),
    st.floats(0, 20).map(lambda days: CellAge(days_since_graft=days)),
)


@given(ANY_VALUE)
def test_every_value_has_words(value: Value) -> None:
    words = value_words(value)
    assert words.strip()
    assert "None" not in words


def test_kinds_that_need_a_value_are_among_those_with_words_for_it() -> None:
    assert all(facts.value for facts in ENTRY_FACTS.values() if facts.value_needed)


def test_what_is_no_value_has_no_words() -> None:
    with pytest.raises(TypeError, match="no words for int"):
        value_words(7)
