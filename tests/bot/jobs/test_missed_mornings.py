"""What did not get through is not sent late, but named in the next morning, once."""

from datetime import date, timedelta

import pytest
from sqlalchemy import Engine, select

from bot.channels.channel import SendOutcome, SendResult
from bot.channels.send_error import SendError
from bot.delivery.claims import claim
from bot.delivery.message_tables import OutboxRow
from bot.delivery.outbox import complete
from bot.delivery.outcomes import apply_outcome
from bot.jobs.mornings import queue_mornings
from bot.wording.alerts import not_through
from scheduling.records.engine import reading, writing
from tests.bot.jobs.crews import DAY, Member, instant, keeper

TUESDAY = DAY - timedelta(days=1)
NEXT_DAY = DAY + timedelta(days=1)


def send(ada: Member, day: date, hour: int, result: SendResult, channel: str = "phone") -> None:
    """Send what waits at an hour of a day."""
    send_error = SendError.BLOCKED if result is SendResult.UNREACHABLE else None
    outcome = SendOutcome(result, error=send_error, wait=None)
    with writing(ada.engine) as session:
        for claimed in claim(session, [channel], instant(day, hour)):
            row = complete(session, claimed, outcome, instant(day, hour))
            assert row is not None
            apply_outcome(session, row, claimed, outcome, instant(day, hour))


def tick(ada: Member, day: date, hour: int = 7) -> None:
    queue_mornings(ada.engine, instant(day, hour))


def test_a_morning_that_failed_all_day_is_named_in_the_next_and_only_there(
    engine: Engine,
) -> None:
    ada = keeper(engine, next_at=instant(TUESDAY, 6, 30))
    tick(ada, TUESDAY)
    send(ada, TUESDAY, 8, SendResult.LATER)
    tick(ada, DAY)
    send(ada, DAY, 8, SendResult.SENT)
    tick(ada, NEXT_DAY)

    _, wednesday, thursday = ada.mornings()
    assert wednesday.startswith("Tue's message did not get through.\nWed 12 May")
    assert "get through" not in thursday
    assert states(ada) == ["expired", "sent", "planned"]


def test_it_is_named_until_a_morning_gets_through(engine: Engine) -> None:
    ada = keeper(engine, next_at=instant(TUESDAY, 6, 30))
    for day in (TUESDAY, DAY, NEXT_DAY):
        tick(ada, day)

    assert ada.mornings()[-1].startswith("Tue's and Wed's messages did not get through.")


@pytest.mark.parametrize(("days", "named"), [(0, ""), (1, "Tue's message"), (2, "Mon's and Tue's")])
def test_after_downtime_todays_morning_comes_and_the_missed_are_named(
    engine: Engine, days: int, named: str
) -> None:
    ada = keeper(engine, next_at=instant(DAY - timedelta(days=days), 6, 30))
    tick(ada, DAY, 14)
    send(ada, DAY, 14, SendResult.SENT)
    tick(ada, NEXT_DAY)

    *missed, today, after = ada.mornings()
    assert len(missed) == days
    assert today.startswith(named or "Wed 12 May")
    assert after.startswith("Thu 13 May")
    assert states(ada) == ["expired"] * days + ["sent", "planned"]


def test_back_before_the_hour_the_missed_are_named_when_it_comes(engine: Engine) -> None:
    ada = keeper(engine, next_at=instant(TUESDAY, 6, 30))
    tick(ada, DAY, 5)
    tick(ada, DAY, 7)

    assert ada.mornings()[-1].startswith("Tue's message did not get through.")


def test_a_morning_to_a_blocked_chat_goes_to_the_next_channel_and_the_owner_is_told_once(
    engine: Engine,
) -> None:
    ada = keeper(engine)
    ada.add_address("sms", "7")
    tick(ada, DAY)
    send(ada, DAY, 7, SendResult.UNREACHABLE)
    tick(ada, DAY, 8)
    tick(ada, DAY, 9)
    for _ in ("news", "morning"):
        send(ada, DAY, 9, SendResult.SENT, "sms")
    tick(ada, NEXT_DAY)

    assert ada.letters() == [
        ("morning", "phone", "11"),
        ("news", "sms", "7"),
        ("morning", "sms", "7"),
        ("morning", "sms", "7"),
    ]
    assert "phone messages do not reach you: the chat is blocked" in texts(ada)[1]
    assert "get through" not in ada.mornings()[-1]


def test_many_days_are_counted_and_not_listed() -> None:
    days = [DAY - timedelta(days=n) for n in range(5, 0, -1)]
    assert not_through(days, [], DAY) == "5 messages since Fri did not get through."
    assert not_through([], [TUESDAY], DAY, 2) == (
        "2 answers to you did not get through. Tue's message may not have come through."
    )
    assert not_through([], [], DAY) == ""


def states(ada: Member) -> list[str]:
    with reading(ada.engine) as session:
        mine = select(OutboxRow).where(OutboxRow.person_id == ada.person_id)
        return [row.state for row in session.scalars(mine.order_by(OutboxRow.id))]


def texts(ada: Member) -> list[str]:
    with reading(ada.engine) as session:
        mine = select(OutboxRow.text).where(OutboxRow.person_id == ada.person_id)
        return list(session.scalars(mine.order_by(OutboxRow.id)))
