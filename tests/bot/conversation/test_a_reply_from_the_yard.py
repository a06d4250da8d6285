"""A reply is read, recorded and answered with what happens next; it can be taken back."""

from datetime import date

import pytest

from bot.channels.channel import SendOutcome, SendResult
from deploy.standins.phones import Phones, river_of_three


@pytest.fixture
def yard(phones: Phones) -> Phones:
    """Ten-day cells placed in box 1 on 28 April; it is 12 May, the day to look for eggs."""
    phones.on(date(2027, 4, 28))
    river_of_three(phones)
    phones.say("Ada", "10 day cells in 1a-c")
    return phones.on(date(2027, 5, 12))


def test_eggs_are_noted_and_the_sealed_brood_look_follows(yard: Phones) -> None:
    # 9 days from egg to sealed worker cell: D. Evans, queen-rearing article,
    # https://theapiarist1.cdn.mymagic.page/ben-harden-queen-rearing-cell-raising
    answer = yard.say("Ada", "1a eggs")

    assert "Noted: 1a eggs." in answer
    assert "sealed brood 1a Fri 21 May" in answer
    assert "undo takes it back" in answer


def test_undo_puts_the_calendar_back_and_the_log_keeps_both(yard: Phones) -> None:
    due = yard.say("Ada", "due")
    yard.say("Ada", "1a eggs")

    assert "Undone: 1a eggs" in yard.say("Ada", "undo")
    assert yard.say("Ada", "due") == due
    assert yard.log("Ada")[-2:] == [("River 1a", "eggs"), ("River 1a", "strike")]


def test_oops_strikes_what_was_said_of_the_same_subject_only(yard: Phones) -> None:
    yard.each("Ada", "1a fed 1 quart", "1a no eggs")

    answer = yard.say("Ada", "oops 1a eggs")

    assert "Corrected: 1a eggs" in answer
    assert [kind for _, kind in yard.log("Ada")[-4:]] == ["fed", "no_eggs", "strike", "eggs"]


def test_undo_of_an_oops_puts_the_first_word_back(yard: Phones) -> None:
    yard.each("Ada", "1a no eggs", "oops 1a eggs", "undo")

    assert "no eggs" in yard.say("Ada", "1a")


def test_an_edited_message_corrects_and_is_not_a_second_reply(yard: Phones) -> None:
    yard.say("Ada", "1a egs, 1b eggs", key="m1")

    answer = yard.say("Ada", "1a eggs, 1b no eggs", key="m1:edit", corrects="m1")

    assert "Corrected: 1a eggs; 1b no eggs" in answer
    assert "no eggs" in yard.say("Ada", "1b")


def test_an_edit_edited_again_leaves_only_the_last_word(yard: Phones) -> None:
    yard.say("Ada", "1a eggs", key="m1")
    yard.say("Ada", "1a no eggs", key="m1:edit1", corrects="m1")
    yard.say("Ada", "1b eggs", key="m1:edit2", corrects="m1")

    assert "nothing noted yet" not in yard.say("Ada", "1b")
    assert "cell in" in yard.say("Ada", "1a")


def test_an_edit_that_is_not_understood_takes_the_old_words_back(yard: Phones) -> None:
    yard.say("Ada", "1a eggs", key="m1")

    answer = yard.say("Ada", "9z eggs", key="m1:edit", corrects="m1")

    assert "Undone: 1a eggs" in answer
    assert "cell in" in yard.say("Ada", "1a")


def test_the_same_message_twice_is_one_entry_and_one_answer(yard: Phones) -> None:
    first = yard.say("Ada", "1a eggs", key="m1")

    assert first
    assert yard.say("Ada", "1a eggs", key="m1") == ""
    assert yard.log("Ada").count(("River 1a", "eggs")) == 1


def test_of_a_list_the_good_items_count_and_the_bad_one_is_named(yard: Phones) -> None:
    answer = yard.say("Ada", "1a eggs, 9c eggs")

    assert "Noted: 1a eggs" in answer
    assert "9c" in answer
    assert ("River 1a", "eggs") in yard.log("Ada")


def test_same_means_what_was_said_last(yard: Phones) -> None:
    yard.say("Ada", "1a eggs")

    assert "1b eggs" in yard.say("Ada", "1b same")


def test_rain_moves_the_looks_for_eggs_and_says_so(yard: Phones) -> None:
    yard.on(date(2027, 5, 8))

    answer = yard.say("Ada", "rained all day")

    assert "Moved: look for eggs 1 to Thu." in answer


def test_a_question_about_the_yard_is_answered_by_its_name(yard: Phones) -> None:
    yard.each("Ada", "new yard Ridge", "boxes 1-2 of 3")
    yard.on(date(2027, 5, 13))

    asked = yard.say("Ada", "1a eggs")

    assert "River" in asked
    assert "Ridge" in asked
    assert "Noted: River 1a eggs" in yard.say("Ada", "river")


def test_an_empty_text_and_one_too_long_are_answered_and_change_nothing(yard: Phones) -> None:
    before = yard.log("Ada")

    assert "text only" in yard.say("Ada", "  ")
    assert "too long" in yard.say("Ada", "1a eggs " * 600)
    assert yard.log("Ada") == before


def test_a_program_error_keeps_nothing_and_asks_to_send_again(
    yard: Phones, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise RuntimeError("a fault")

    before = yard.log("Ada")
    monkeypatch.setattr("bot.conversation.record_findings.answered", fail)

    assert "went wrong" in yard.say("Ada", "1a eggs")
    assert yard.log("Ada") == before


def test_answers_to_one_person_keep_their_order_when_one_must_wait(yard: Phones) -> None:
    refusals = iter([SendOutcome(SendResult.LATER, said="429")])
    yard.failing = lambda _letter: next(refusals, None)

    assert yard.say("Ada", "1a eggs") == ""
    assert yard.say("Ada", "1b no eggs") == ""

    yard.on(date(2027, 5, 12), hour=13).deliver()
    shown = [letter.text for letter in yard.shown[-2:]]
    assert ["1a eggs" in shown[0], "1b no eggs" in shown[1]] == [True, True]
