"""What a keeper is told of too few bees, low food and robbers, in answer to plain replies.

Common practice, no source: a unit with too few bees loses its brood, so nurse bees go in at once;
feed before it falls under half a deep frame; in a dearth a small entrance, inside and at dusk.
"""

from datetime import date

import pytest

from tests.bot.desk.phones import Phones, river_of_three


@pytest.fixture
def yard(phones: Phones) -> Phones:
    phones.on(date(2027, 5, 12))
    river_of_three(phones)
    return phones


def test_a_weak_make_up_is_answered_at_once_with_what_to_add(yard: Phones) -> None:
    answer = yard.say("Ada", "made up 1a with 1 frame of brood, 1 frame of bees, 0 shakes")

    assert "add nurse bees 1a today" in answer
    assert "add 1 shake at once" in yard.say("Ada", "due")


def test_a_feed_is_told_in_the_persons_own_feeders(yard: Phones) -> None:
    yard.each("Ada", "1a eggs", "1a half a frame of food")
    yard.on(date(2027, 5, 13))

    assert "2 jars 1:1" in yard.say("Ada", "due")
    yard.say("Ada", "feeder 0.5 l")
    assert "4 jars 1:1" in yard.say("Ada", "due")


def test_a_dearth_told_of_the_yard_warns_of_robbers(yard: Phones) -> None:
    yard.each("Ada", "1a eggs", "1a half a frame of food", "dearth")
    yard.on(date(2027, 5, 13))

    assert "19 mm entrance, feed inside at dusk" in yard.say("Ada", "due")


def test_a_flow_puts_feeding_off_and_says_so(yard: Phones) -> None:
    yard.each("Ada", "1a eggs", "1a three quarters of a frame of food")

    assert "Moved: " in yard.say("Ada", "nectar flow")
