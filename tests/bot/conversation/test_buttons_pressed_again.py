"""A button tapped twice is one entry; tapped after an undo it counts anew."""

from datetime import timedelta

from sqlalchemy import Engine, select

from bot.channels.channel import IncomingMessage
from bot.conversation.message_handler import MessageHandler
from bot.delivery.intake import Intake
from bot.delivery.message_tables import OutboxRow
from scheduling.records.crew_records import CrewRecords
from scheduling.records.engine import reading
from tests.bot.jobs.crews import DAY, Member, instant, keeper

NOON = instant(DAY, 12)


def tap(ada: Member, tapped: str, seconds: float, text: str = "1a eggs") -> None:
    at = NOON + timedelta(seconds=seconds)
    message = IncomingMessage("phone", "11", f"tap:11:7:{text}", text, at, "Ada", tap=tapped)
    Intake(ada.engine, MessageHandler()).receive(message, at)


def undo(ada: Member, seconds: float) -> None:
    at = NOON + timedelta(seconds=seconds)
    Intake(ada.engine, MessageHandler()).receive(
        IncomingMessage("phone", "11", f"11:{seconds}", "undo", at, "Ada"), at
    )


def said(ada: Member) -> list[str]:
    """The kinds in the log about the unit, strikes among them."""
    with reading(ada.engine) as session:
        log = CrewRecords(session, ada.crew_id).entries()
    return [str(entry.kind) for entry in log if str(entry.place.unit) == "1a"][1:]


def answers(ada: Member) -> int:
    with reading(ada.engine) as session:
        mine = select(OutboxRow.id).where(OutboxRow.purpose == "answer")
        return len(session.scalars(mine).all())


def test_two_taps_under_two_ids_are_one_entry_and_one_answer(engine: Engine) -> None:
    ada = keeper(engine)
    for number in range(3):
        tap(ada, f"t{number}", number * 100)

    assert said(ada) == ["eggs"]
    assert answers(ada) == 1


def test_after_an_undo_the_button_counts_anew_as_often_as_it_is_undone(engine: Engine) -> None:
    ada = keeper(engine)
    for number in range(3):
        tap(ada, f"t{number}", number * 100)
        tap(ada, f"again {number}", number * 100 + 1)
        undo(ada, number * 100 + 50)

    assert said(ada) == ["eggs", "strike"] * 3


def test_the_carriers_repetition_of_a_tap_that_was_undone_does_not_count(engine: Engine) -> None:
    ada = keeper(engine)
    tap(ada, "t1", 0)
    undo(ada, 50)
    tap(ada, "t1", 100)

    assert said(ada) == ["eggs", "strike"]


def test_a_button_that_only_asks_answers_again_a_while_later(engine: Engine) -> None:
    ada = keeper(engine)
    tap(ada, "t1", 0, "due")
    tap(ada, "t2", 5, "due")
    assert answers(ada) == 1
    tap(ada, "t3", 60, "due")
    assert answers(ada) == 2
