"""What was noted and is said again is neither asked about nor noted twice."""

from datetime import timedelta

import pytest

from deploy.standins.phones import DAY, Phones, river_of_three


@pytest.fixture
def river(phones: Phones) -> Phones:
    """Ada's River, with cells in box 1 that are due to be out, and a caged queen in 2a."""
    river_of_three(phones)
    phones.on(DAY - timedelta(days=4))
    phones.each("Ada", "10 day cells in 1", "2a caged queen")
    return phones.on(DAY)


@pytest.mark.parametrize(
    ("said", "noted"),
    [("1a out", "emerged"), ("2a out", "released"), ("2a not out", "still_caged")],
)
def test_a_word_with_two_meanings_keeps_the_one_it_had(
    river: Phones, said: str, noted: str
) -> None:
    unit = said.split()[0]
    assert f"Noted: {unit}" in river.say("Ada", said)
    log = river.log("Ada")
    again = river.say("Ada", said)

    assert log[-1] == (f"River {unit}", noted)
    if noted == "still_caged":
        # The check is open still, and she was looked at once more.
        assert "Noted" in again
        return
    assert again == f'"{said}" is noted already.'
    assert river.log("Ada") == log


def test_of_a_list_the_rest_is_noted(river: Phones) -> None:
    river.say("Ada", "1a out")
    answer = river.say("Ada", "1a out, 1b dud")

    assert "Noted: 1b dud cell" in answer
    assert '"1a out" is noted already' in answer


def test_after_another_look_it_is_asked_again(river: Phones) -> None:
    river.each("Ada", "1a out", "1a virgin")

    assert "can be read two ways" in river.say("Ada", "1a out")


def test_a_new_cell_is_another_story(river: Phones) -> None:
    river.each("Ada", "1a out", "10 day cell in 1a")

    assert "Noted: 1a out" in river.say("Ada", "1a out")
