"""Stop means now: what was planned and not yet sent is not sent after it."""

from datetime import timedelta

from sqlalchemy import Engine, select

from bot.channels.channel import IncomingMessage
from bot.conversation.message_handler import MessageHandler
from bot.delivery.intake import Intake
from bot.delivery.message_tables import OutboxRow
from bot.jobs.mornings import queue_mornings
from scheduling.records.engine import reading
from tests.bot.jobs.crews import DAY, Member, instant, keeper

MORNING = instant(DAY, 6, 30)


def states(ada: Member) -> list[tuple[str, str]]:
    """Purpose and state of all that was planned for the person."""
    mine = select(OutboxRow).where(OutboxRow.person_id == ada.person_id).order_by(OutboxRow.id)
    with reading(ada.engine) as session:
        return [(row.purpose, row.state) for row in session.scalars(mine)]


def say(engine: Engine, text: str) -> None:
    message = IncomingMessage("phone", "11", f"11:{text}", text, MORNING, "Ada")
    Intake(engine, MessageHandler()).receive(message, MORNING + timedelta(seconds=5))


def test_a_morning_that_could_not_be_sent_yet_is_not_sent_after_stop(engine: Engine) -> None:
    ada = keeper(engine)
    queue_mornings(engine, MORNING)
    say(engine, "stop")

    assert states(ada) == [("morning", "expired"), ("farewell", "planned")]


def test_a_partner_who_joins_is_no_news_for_an_address_that_takes_none(engine: Engine) -> None:
    ada = keeper(engine)
    say(engine, "invite")
    ada.lose("phone", "11")
    code = _code(ada)
    joining = IncomingMessage("phone", "12", "12:1", f"join {code}", MORNING, "Milo")
    Intake(engine, MessageHandler()).receive(joining, MORNING)

    assert [purpose for purpose, _ in states(ada)] == ["answer"]


def _code(ada: Member) -> str:
    with reading(ada.engine) as session:
        text = session.scalars(select(OutboxRow.text)).one()
    return text.partition("join ")[2][:6]
