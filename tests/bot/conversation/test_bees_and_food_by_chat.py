"""What a keeper is told of too few bees, low food and robbers, in answer to plain replies.

Common practice, no source: a unit with too few bees loses its brood, so nurse bees go in at once;
feed before it falls under half a deep frame; in a dearth a small entrance, inside and at dusk.
"""

from datetime import date

import pytest

from deploy.standins.phones import Phones, river_of_three


@pytest.fixture
def yard(phones: Phones) -> Phones:
    phones.on(date(2027, 5, 12))
    river_of_three(phones)
    return phones


def test_a_weak_make_up_is_answered_at_once_with_what_to_add(yard: Phones) -> None:
    answer = yard.say("Ada", "made up 1a with 1 frame of brood, 1 frame of bees, 0 shakes")

    assert "add 1 shake of nurse bees 1a today" in answer
    assert "Add 1 shake of nurse bees 1a (too few to warm the brood, add them at once)" in yard.say(
        "Ada", "due"
    )


def test_a_trap_goes_in_on_the_day_of_make_up(yard: Phones) -> None:
    yard.say("Ada", "made up 1a")
    assert "Put a trap in 1a" in yard.say("Ada", "due")


def test_the_story_tells_the_fewest_bees_and_when(yard: Phones) -> None:
    yard.each(
        "Ada",
        "made up 1a with 2/3 frame of brood, 2 frames of bees, 1 shake",
        "10 day cell in 1a",
        "10 day cell in 2a",
    )
    story = yard.say("Ada", "1a")
    assert story.splitlines()[-1] == "Bees: fewest about 2700 Tue 15 Jun"
    assert "Bees:" not in yard.say("Ada", "2a")


def test_a_unit_fed_over_one_deep_frame_is_told_to_stop(yard: Phones) -> None:
    yard.say("Ada", "1a one frame of food")
    assert yard.say("Ada", "fed 1a 1 quart").endswith(
        "1a over 1 deep frame of food: stop, more brings beetles and leaves no room to lay."
    )
    yard.say("Ada", "1b half a frame of food")
    assert "stop" not in yard.say("Ada", "fed 1b 1 quart")


def test_a_queen_looked_at_late_is_told_with_her_chance_and_the_next_look(yard: Phones) -> None:
    yard.each("Ada", "10 day cells in 1a-b")
    yard.on(date(2027, 5, 27)).say("Ada", "1a no eggs")
    assert "no eggs at day 13: 2 in 10 she still lays, look again Thu 3 Jun" in yard.say(
        "Ada", "1a"
    )
    yard.on(date(2027, 6, 5)).say("Ada", "1a virgin")
    story = yard.say("Ada", "1a")
    assert "no eggs at day 22: " in story
    assert "she still lays, fewer mate well so late, look again " in story


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
