"""What the story of a unit says of its bees; all of it invented."""

import pytest

from bot.channels.sms.segments import is_gsm7
from bot.wording.story import bees_words
from scheduling.checks.colonies import BeesAhead, bees_ahead
from scheduling.colony.bees_enough import AnotherRound, LowPoint
from scheduling.entry_kinds import EntryKind
from scheduling.values import MakeUp
from tests.scheduling.story import Story, may

GOOD = MakeUp(brood_frames=0.67, sealed_share=0.75, bee_frames=2, nurse_shakes=1)
WEAK = MakeUp(brood_frames=0.33, sealed_share=0.75, bee_frames=1, nurse_shakes=1)


def made_up(told: MakeUp) -> Story:
    return Story().on(1, EntryKind.MADE_UP, told)


@pytest.mark.parametrize(
    ("ahead", "said"),
    [
        (None, ""),
        (BeesAhead(LowPoint(may(35), 1432)), "fewest about 1450 Fri 4 Jun"),
        (BeesAhead(LowPoint(may(9), 1432)), ""),
        (
            BeesAhead(LowPoint(may(35), 700), may(20), may(12)),
            "fewest about 700 Fri 4 Jun, too few from Thu 20 May, give brood by Wed",
        ),
        (
            BeesAhead(LowPoint(may(9), 700), may(9), may(2)),
            "too few since yesterday, give brood by today",
        ),
        (
            BeesAhead(laying_workers_from=may(31), another_round=AnotherRound.CELL),
            "laying workers likely from Mon 31 May, worth another cell",
        ),
        (
            BeesAhead(laying_workers_from=may(9), another_round=AnotherRound.COMBINE),
            "laying workers likely since yesterday, not worth another round, combine",
        ),
    ],
)
def test_what_is_ahead_in_one_line(ahead: BeesAhead | None, said: str) -> None:
    assert bees_words(ahead, may(10)) == said
    assert is_gsm7(said)


def test_a_unit_of_usual_strength_has_a_low_point_and_wants_nothing() -> None:
    found = bees_ahead(made_up(GOOD).on(2, EntryKind.CELL_PLACED).queen())
    assert found is not None
    assert found.low is not None
    assert found.too_few_from is None
    assert may(25) < found.low.on < may(45)


def test_a_weak_unit_becomes_too_few_and_wants_brood_in_time_for_it_to_come_out() -> None:
    found = bees_ahead(made_up(WEAK).on(2, EntryKind.CELL_PLACED).queen())
    assert found is not None
    assert found.too_few_from is not None
    assert found.brood_by is not None
    assert (found.too_few_from - found.brood_by).days == 12


def test_a_unit_without_a_queen_is_worth_less_the_longer_it_waits() -> None:
    verdicts = []
    for lost in (3, 20, 50):
        story = made_up(GOOD).on(2, EntryKind.CELL_PLACED).on(lost, EntryKind.CELL_FAILED)
        found = bees_ahead(story.queen())
        assert found is not None
        assert found.laying_workers_from is not None
        verdicts.append(found.another_round)
    assert verdicts == [
        AnotherRound.CELL,
        AnotherRound.CELL_AND_BROOD,
        AnotherRound.COMBINE,
    ]


@pytest.mark.parametrize(
    "story",
    [
        Story().on(1, EntryKind.CELL_PLACED),
        made_up(MakeUp()).on(2, EntryKind.CELL_PLACED),
        made_up(GOOD).on(2, EntryKind.DEAD),
    ],
    ids=["no make-up told", "nothing told of it", "the unit is dead"],
)
def test_nothing_is_said_where_nothing_is_known(story: Story) -> None:
    assert bees_ahead(story.queen()) is None
