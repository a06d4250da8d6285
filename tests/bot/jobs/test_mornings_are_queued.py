"""Each person's morning is queued once a local day, when its hour has come."""

from datetime import date, datetime, time, timedelta

import pytest
from sqlalchemy import Engine

from bot.conversation.conversation_state import ConversationState, load_state, save_state
from bot.conversation.work_out_morning import morning_of
from bot.jobs import mornings, ready_mornings
from bot.jobs.mornings import queue_mornings
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading, writing
from scheduling.records.people import Person
from tests.bot.jobs.crews import DAY, Member, instant, keeper

NEXT_DAY = DAY + timedelta(days=1)


def test_the_morning_comes_at_its_time_and_once(engine: Engine) -> None:
    ada = keeper(engine)

    queue_mornings(engine, instant(DAY, 6, 29))
    assert ada.mornings() == []
    queue_mornings(engine, instant(DAY, 6, 30))
    queue_mornings(engine, instant(DAY, 6, 30))
    queue_mornings(engine, instant(DAY, 23, 59))

    (told,) = ada.mornings()
    assert "Wed 12 May" in told
    assert "Look for eggs 1" in told


def test_it_comes_again_the_next_day(engine: Engine) -> None:
    ada = keeper(engine)
    queue_mornings(engine, instant(DAY, 6, 30))
    assert ada.person.next_morning_at == instant(NEXT_DAY, 6, 30)
    queue_mornings(engine, instant(NEXT_DAY, 6, 30))

    assert len(ada.mornings()) == 2


def test_it_is_the_persons_own_clock_that_counts(engine: Engine) -> None:
    # 6:30 in Auckland on 13 May, standard time of 12 h before UTC: IANA time zone database.
    milo = keeper(engine, zone="Pacific/Auckland", next_at=instant(DAY, 18, 30))
    queue_mornings(engine, instant(DAY, 18, 30))

    assert "Thu 13 May" in milo.mornings()[0]


def test_after_days_of_being_down_only_todays_morning_comes(engine: Engine) -> None:
    ada = keeper(engine, next_at=instant(DAY - timedelta(days=3), 6, 30))
    queue_mornings(engine, instant(DAY, 14))

    told = ada.mornings()[-1]
    assert told.startswith("Mon's and Tue's messages did not get through.\nWed 12 May")
    assert ada.person.next_morning_at == instant(NEXT_DAY, 6, 30)


def test_back_from_being_down_before_the_hour_it_waits_for_the_hour(engine: Engine) -> None:
    ada = keeper(engine, next_at=instant(DAY - timedelta(days=3), 6, 30))
    queue_mornings(engine, instant(DAY, 5))

    assert not any("Wed 12 May" in told for told in ada.mornings())
    assert ada.person.next_morning_at == instant(DAY, 6, 30)


def test_a_later_hour_set_after_the_morning_came_brings_no_second_one(engine: Engine) -> None:
    ada = keeper(engine)
    queue_mornings(engine, instant(DAY, 6, 30))
    ada.update({"morning": time(9), "next_morning_at": instant(DAY, 9)})
    with writing(engine) as session:
        save_state(session, ada.person_id, ConversationState(more=("the rest of an answer",)))
    queue_mornings(engine, instant(DAY, 9))

    assert len(ada.mornings()) == 1
    assert ada.person.next_morning_at == instant(NEXT_DAY, 9)
    with reading(engine) as session:
        assert load_state(session, ada.person_id).more == ("the rest of an answer",)


def test_nothing_due_means_no_message_and_the_next_day_is_set(engine: Engine) -> None:
    ada = keeper(engine, cells=False)
    queue_mornings(engine, instant(DAY, 6, 30))

    assert ada.letters() == []
    assert ada.person.next_morning_at == instant(NEXT_DAY, 6, 30)


def test_who_asked_for_a_daily_word_gets_one_when_nothing_is_due(engine: Engine) -> None:
    ada = keeper(engine, cells=False)
    ada.update({"daily_word": True})
    queue_mornings(engine, instant(DAY, 6, 30))

    assert ada.mornings() == ["Nothing due today."]


def test_who_stopped_gets_none(engine: Engine) -> None:
    ada = keeper(engine)
    ada.update({"stopped": True})
    queue_mornings(engine, instant(DAY, 6, 30))

    assert ada.letters() == []


def test_a_year_after_the_last_caution_it_comes_before_the_morning(engine: Engine) -> None:
    ada = keeper(engine)
    ada.update({"cautioned_on": date(2026, 5, 12)})
    queue_mornings(engine, instant(DAY, 6, 30))
    queue_mornings(engine, instant(NEXT_DAY, 6, 30))

    assert [purpose for purpose, _, _ in ada.letters()] == ["caution", "morning", "morning"]


def test_more_people_than_fit_into_one_transaction_all_get_theirs(engine: Engine) -> None:
    people = [keeper(engine, f"Keeper {n}", str(n)) for n in range(60)]

    assert queue_mornings(engine, instant(DAY, 6, 30)) == 60
    assert {len(each.mornings()) for each in people} == {1}


def failing_for(name: str) -> object:
    """A morning that cannot be worked out for one person."""

    def fail_or_work_out(records: CrewRecords, person: Person, day: date, *how: str) -> object:
        if person.name == name:
            raise ValueError("a log that nobody foresaw")
        return morning_of(records, person, day, *how)

    return fail_or_work_out


def test_one_persons_error_keeps_nobody_else_waiting_and_is_tried_again(
    engine: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    ada, milo = keeper(engine, "Ada", "11"), keeper(engine, "Milo", "12")
    with monkeypatch.context() as faulty:
        faulty.setattr(ready_mornings, "morning_of", failing_for("Ada"))
        queue_mornings(engine, instant(DAY, 6, 30))

    assert len(milo.mornings()) == 1
    assert ada.letters() == []
    queue_mornings(engine, _next(ada))
    assert len(ada.mornings()) == 1


def _next(member: Member) -> datetime:
    due = member.person.next_morning_at
    assert due is not None
    assert instant(DAY, 6, 30) < due <= instant(DAY, 7)
    return due


def test_many_peoples_errors_do_not_keep_the_tick_for_ever(
    engine: Engine, monkeypatch: pytest.MonkeyPatch
) -> None:
    for number in range(51):
        keeper(engine, f"Keeper {number}", str(number), cells=False)
    monkeypatch.setattr(mornings, "_tell", _fail)

    assert queue_mornings(engine, instant(DAY, 6, 30)) == 51


def _fail(*_: object) -> None:
    raise ValueError("a fault")
