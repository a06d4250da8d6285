"""Reports move a message only ever forward, whatever order they come in."""

from datetime import UTC, datetime, timedelta
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import Engine

from bot.channels.reports import Delivery, DeliveryReport, moved_on
from bot.channels.send_error import SendError
from bot.delivery.delivery_reports import delivery_of, note_report, of_parts
from bot.delivery.message_tables import DeliveryRow
from scheduling.records.engine import reading, writing

AT = datetime(2027, 5, 12, 10, 30, tzinfo=UTC)
HANDED_OVER, DELIVERED, FAILED = Delivery.HANDED_OVER, Delivery.DELIVERED, Delivery.FAILED


@given(st.lists(st.sampled_from(Delivery), max_size=8))
def test_the_same_reports_in_any_order_end_alike(reports: list[Delivery]) -> None:
    def end(order: list[Delivery]) -> Delivery:
        at = HANDED_OVER
        for report in order:
            at = moved_on(at, report)
        return at

    assert end(reports) == end(sorted(reports)) == end(sorted(reports, reverse=True))


@pytest.mark.parametrize("at", Delivery)
def test_a_phone_that_has_a_message_has_it(at: Delivery) -> None:
    assert moved_on(DELIVERED, at) is DELIVERED
    assert moved_on(at, DELIVERED) is DELIVERED


def test_a_message_with_a_lost_part_cannot_be_read() -> None:
    assert of_parts([DELIVERED, FAILED, HANDED_OVER]) is FAILED
    assert of_parts([DELIVERED, HANDED_OVER]) is HANDED_OVER
    assert of_parts([DELIVERED, DELIVERED]) is DELIVERED


def report(
    delivery: Delivery, carrier_id: str = "a", error: SendError | None = None
) -> DeliveryReport:
    return DeliveryReport("sms", carrier_id, delivery, AT, "17/0", error)


def note(engine: Engine, *reports: DeliveryReport) -> list[bool]:
    with writing(engine) as session:
        return [note_report(session, one) for one in reports]


@pytest.mark.parametrize("order", list(permutations([HANDED_OVER, FAILED, DELIVERED])))
def test_what_is_kept_never_goes_backwards(engine: Engine, order: tuple[Delivery, ...]) -> None:
    changed = note(engine, *(report(delivery) for delivery in order))
    assert changed[0]
    with reading(engine) as session:
        assert delivery_of(session, "sms", ["a"]) is DELIVERED


def test_a_report_told_twice_changes_nothing_more(engine: Engine) -> None:
    failed = report(FAILED, error=SendError.OPTED_OUT)
    assert note(engine, failed, failed, report(HANDED_OVER)) == [True, False, False]
    with reading(engine) as session:
        (row,) = session.query(DeliveryRow).all()
        assert (row.delivery, row.error, row.key) == ("failed", "opted out", "17/0")


def test_a_message_in_parts_is_delivered_with_its_last(engine: Engine) -> None:
    note(engine, report(DELIVERED, "a"), report(HANDED_OVER, "b"))
    with reading(engine) as session:
        assert delivery_of(session, "sms", ["a", "b", "c"]) is HANDED_OVER
    note(engine, report(DELIVERED, "c"), report(DELIVERED, "b"))
    with reading(engine) as session:
        assert delivery_of(session, "sms", ["a", "b", "c"]) is DELIVERED


def test_the_same_id_at_another_channel_is_another_message(engine: Engine) -> None:
    note(engine, report(DELIVERED), DeliveryReport("mail", "a", FAILED, AT + timedelta(hours=1)))
    with reading(engine) as session:
        assert delivery_of(session, "sms", ["a"]) is DELIVERED
        assert delivery_of(session, "mail", ["a"]) is FAILED
