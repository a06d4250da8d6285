"""Proof by sealed worker brood, and when she may be taken.

Worker brood is sealed 9 days after the egg and emerges at 21 (Wade, ACT Beekeepers 2022,
https://actbeekeepers.asn.au/bee-buzz-box-september-2022-honey-bee-colony-dynamics-part-i-brood-nest-signatures/).
Sealed worker brood is the final verdict (COLOSS BEEBOOK, queen rearing 2.2.2).
"""

from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Cause
from scheduling.entry_kinds import EntryKind
from scheduling.values import Brood, Pattern
from tests.scheduling.story import Story, may

GOOD, SPOTTY = Brood(Pattern.GOOD), Brood(Pattern.SPOTTY)


def laying_since_the_15th() -> Story:
    return Story().on(1, EntryKind.CELL_PLACED).on(4, EntryKind.EMERGED).on(15, EntryKind.EGGS)


def test_nine_days_after_the_eggs() -> None:
    story = laying_since_the_15th()
    assert story.days(CheckKind.SEALED_BROOD) == (23, 24, 29)
    why = story.check(CheckKind.SEALED_BROOD).why
    assert (why.cause, why.seen) == (Cause.WORKER_BROOD_SEALS, may(15))


def test_a_laying_queen_needs_no_rest() -> None:
    assert laying_since_the_15th().rests() == []


def test_taking_her_is_foreseen_until_she_is_proven() -> None:
    check = laying_since_the_15th().check(CheckKind.TAKE)
    assert check.follows is CheckKind.SEALED_BROOD
    assert check.best == may(29)


def test_proven_and_two_weeks_in_lay_she_may_be_taken() -> None:
    story = laying_since_the_15th().on(24, EntryKind.SEALED_BROOD, GOOD)
    assert story.days(CheckKind.TAKE) == (29, 29, None)
    assert story.check(CheckKind.TAKE).follows is None


def test_proven_late_she_may_be_taken_at_once() -> None:
    story = laying_since_the_15th().on(33, EntryKind.SEALED_BROOD, GOOD)
    assert story.days(CheckKind.TAKE) == (33, 33, None)


def test_spotty_brood_is_looked_at_again_in_a_week() -> None:
    story = laying_since_the_15th().on(24, EntryKind.SEALED_BROOD, SPOTTY)
    assert story.days(CheckKind.SEALED_BROOD) == (29, 31, 31)
    assert story.check(CheckKind.SEALED_BROOD).why.cause is Cause.SPOTTY_BROOD
    assert CheckKind.TAKE not in story.kinds()


def test_spotty_at_first_and_good_later() -> None:
    story = laying_since_the_15th().on(24, EntryKind.SEALED_BROOD, SPOTTY)
    story.on(31, EntryKind.SEALED_BROOD, GOOD)
    assert CheckKind.TAKE in story.kinds()


def test_a_queen_in_a_unit_of_unknown_history() -> None:
    story = Story().on(20, EntryKind.EGGS)
    assert story.days(CheckKind.SEALED_BROOD) == (28, 29, 34)
