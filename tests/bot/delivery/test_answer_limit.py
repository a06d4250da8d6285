"""The count of answers by text: of one address, on one day."""

from datetime import date, timedelta

from sqlalchemy import Engine

from bot.delivery.answer_limit import Answering, AnswerLimit
from scheduling.records.engine import writing

DAY = date(2027, 5, 12)
MILO, NILS = "+12025550123", "+12025550124"


def take(engine: Engine, segments: int, address: str = MILO, day: date = DAY) -> Answering:
    with writing(engine) as session:
        return AnswerLimit(5).take(session, "sms", address, day, segments)


def test_answers_go_up_to_the_limit_then_it_is_said_once(engine: Engine) -> None:
    assert [take(engine, 2) for _ in range(5)] == [
        Answering.ANSWER,
        Answering.ANSWER,
        Answering.SAY_LIMIT,
        Answering.NOTHING,
        Answering.NOTHING,
    ]


def test_after_it_was_said_not_even_a_short_one_goes(engine: Engine) -> None:
    take(engine, 4)
    assert take(engine, 2) is Answering.SAY_LIMIT
    assert take(engine, 1) is Answering.NOTHING


def test_each_address_and_each_day_has_its_own(engine: Engine) -> None:
    take(engine, 5)
    assert take(engine, 1) is Answering.SAY_LIMIT

    assert take(engine, 5, NILS) is Answering.ANSWER
    assert take(engine, 5, day=DAY + timedelta(days=1)) is Answering.ANSWER
    assert take(engine, 1, day=DAY + timedelta(days=1)) is Answering.SAY_LIMIT
