"""Both ways over SMPP, against a server that others wrote."""

import asyncio
from collections.abc import Awaitable, Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from smpp34 import Tlv
from smpp34 import _smpp34 as numbers
from sqlalchemy import Engine

from bot.channels.channel import IncomingMessage, OutgoingMessage, SendOutcome, SendResult
from bot.channels.reports import Delivery, DeliveryReport
from bot.channels.send_error import SendError
from bot.channels.smpp.channel import SmppChannel
from bot.channels.smpp.link import SmppAccount
from bot.channels.sms.concat_store import WAIT, DatabaseParts
from bot.channels.sms.header import PartNumber, read_header, write_header
from bot.channels.sms.segments import HeaderSize, decode, encode, split
from bot.delivery.delivery_reports import delivery_of, note_report
from deploy.standins.databases import copied_file
from deploy.standins.free_port import free_port
from deploy.standins.message_centre import SENDER, MessageCentre, running_centre
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from scheduling.records.engine import open_engine, reading, writing
from tests.bot.channels.taking_in import TakenIn

ADA = "+12025550123"
AT = datetime(2027, 5, 12, 10, 30, tzinfo=UTC)
QUICK = timedelta(milliseconds=50)


@pytest.fixture
def records(made_once: Path, tmp_path: Path) -> Engine:
    return open_engine(copied_file(made_once, tmp_path))


def account(port: int) -> SmppAccount:
    return SmppAccount("127.0.0.1", port, "yardbell", "invented", SENDER, tls=False, region="US")


def channel_to(port: int, records: Engine, taken: TakenIn, within: float = 20.0) -> SmppChannel:
    return SmppChannel(
        account(port), DatabaseParts(records), taken.report, lambda: taken.now,
        timedelta(seconds=within), QUICK,
    )  # fmt: skip


def sending(
    records: Engine,
    *letters: OutgoingMessage,
    statuses: list[int] | None = None,
    within: float = 20.0,
) -> tuple[list[SendOutcome], MessageCentre]:
    async def run() -> tuple[list[SendOutcome], MessageCentre]:
        async with running_centre() as centre:
            centre.next_statuses = statuses or []
            channel = channel_to(centre.port, records, TakenIn(AT), within)
            outcomes = [await channel.send(outgoing) for outgoing in letters]
            await channel.close()
            return outcomes, centre

    return asyncio.run(run())


Deliveries = Callable[[MessageCentre, TakenIn], Awaitable[object]]


def listening(records: Engine, deliveries: Deliveries, taken: TakenIn | None = None) -> TakenIn:
    taken = taken or TakenIn(AT)

    async def run() -> None:
        async with running_centre() as centre:
            channel = channel_to(centre.port, records, taken)
            task = asyncio.create_task(channel.listen(taken.receive))
            try:
                async with asyncio.timeout(WAIT_AT_MOST_SECONDS):
                    await deliveries(centre, taken)
            finally:
                task.cancel()
                await asyncio.gather(task, return_exceptions=True)
                await channel.close()

    asyncio.run(run())
    return taken


def test_a_morning_is_submitted_with_a_receipt_asked_for(records: Engine) -> None:
    (outcome,), centre = sending(records, OutgoingMessage(ADA, "River: 4a-c [late] 5€", key="17"))
    assert outcome == SendOutcome(SendResult.SENT, carrier_id="m1")
    (one,) = centre.submitted
    assert (one.to, one.sender) == ("12025550123", "12025550100")
    assert (decode(one.words), one.coding, one.esm_class) == ("River: 4a-c [late] 5€", 0, 0)
    assert (one.wants_receipt, one.types) == (1, (1, 1, 1, 1))


def test_a_long_morning_goes_in_parts_that_we_cut(records: Engine) -> None:
    text = "x" * 152 + "€" + "y" * 200
    (outcome,), centre = sending(records, OutgoingMessage(ADA, text, key="17"))
    assert outcome.carrier_id == "m1 m2 m3"
    read = [read_header(one.words) for one in centre.submitted]
    assert [(part.number, part.total) for part, _ in read if part] == [(1, 3), (2, 3), (3, 3)]
    assert len({part.reference for part, _ in read if part}) == 1
    assert tuple(decode(words) for _, words in read) == split(text)
    assert {one.esm_class for one in centre.submitted} == {0x40}


def test_another_alphabet_goes_in_utf_16(records: Engine) -> None:
    text = "я" * 66 + "\N{HONEYBEE}" + "я" * 20
    _, centre = sending(records, OutgoingMessage(ADA, text, key="17"))
    assert [one.coding for one in centre.submitted] == [8, 8]
    parts = [read_header(one.words)[1].decode("utf-16-be") for one in centre.submitted]
    assert "".join(parts) == text


def test_the_parts_of_a_second_try_are_numbered_like_the_first(records: Engine) -> None:
    outgoing = OutgoingMessage(ADA, "z" * 300, key="17")
    outcomes, centre = sending(records, outgoing, outgoing, statuses=[0, 0x08])
    assert [one.result for one in outcomes] == [SendResult.LATER, SendResult.SENT]
    assert centre.submitted[0].words == centre.submitted[2].words


# SMPP v3.4, 5.1.3 (numbers of smpp34 and of smpplib agree).
@pytest.mark.parametrize(
    ("status", "result", "send_error"),
    [
        (numbers.ESME_RINVDSTADR, SendResult.UNREACHABLE, SendError.NO_SUCH_NUMBER),
        (numbers.ESME_RTHROTTLED, SendResult.LATER, SendError.FLOOD),
        (numbers.ESME_RMSGQFUL, SendResult.LATER, SendError.FLOOD),
        (numbers.ESME_RSYSERR, SendResult.LATER, SendError.CARRIER_FAILED),
        (numbers.ESME_RINVSRCADR, SendResult.REFUSED, SendError.REFUSED),
        (numbers.ESME_RINVMSGLEN, SendResult.REFUSED, SendError.REFUSED),
    ],
)
def test_every_refusal_is_told_apart(
    records: Engine, status: int, result: SendResult, send_error: SendError
) -> None:
    (outcome,), _ = sending(records, OutgoingMessage(ADA, "4b eggs"), statuses=[status])
    assert (outcome.result, outcome.error) == (result, send_error)
    assert outcome.said


def test_without_an_answer_nobody_knows_whether_it_arrived(records: Engine) -> None:
    (outcome,), _ = sending(records, OutgoingMessage(ADA, "4b eggs"), statuses=[-1], within=0.3)
    assert (outcome.result, outcome.error) == (SendResult.UNKNOWN, SendError.NO_ANSWER)


def test_without_a_centre_nothing_was_sent(records: Engine) -> None:
    async def run() -> SendOutcome:
        return await channel_to(free_port(), records, TakenIn(AT)).send(
            OutgoingMessage(ADA, "4b eggs")
        )

    outcome = asyncio.run(run())
    assert (outcome.result, outcome.error) == (SendResult.LATER, SendError.NO_CONNECTION)


@pytest.mark.parametrize(
    "outgoing",
    [OutgoingMessage(ADA, " "), OutgoingMessage("Ada", "x"), OutgoingMessage(ADA, "x" * 40_000)],
)
def test_what_can_never_be_sent_is_refused(records: Engine, outgoing: OutgoingMessage) -> None:
    (outcome,), centre = sending(records, outgoing)
    assert (outcome.result, centre.submitted) == (SendResult.REFUSED, [])


def test_a_reply_reaches_the_desk(records: Engine) -> None:
    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        assert await centre.deliver(encode("4a eggs, 5b [no] eggs")) == 0
        assert await centre.deliver("5a ½".encode("utf-16-be"), coding=8) == 0
        assert await centre.deliver(b"6a caf\xe9", coding=3) == 0
        assert await centre.deliver(b"7 dud", sender="2025550199", ton=2) == 0
        long_one = Tlv(numbers.TLV_MESSAGE_PAYLOAD, encode("8a eggs"))
        assert await centre.deliver(b"", tlvs=[long_one]) == 0

    taken = listening(records, deliver)
    assert taken.texts == ["4a eggs, 5b [no] eggs", "5a ½", "6a café", "7 dud", "8a eggs"]
    assert [message.address for message in taken.messages] == [ADA] * 3 + ["+12025550199", ADA]
    assert {message.channel for message in taken.messages} == {"sms"}


def test_who_cannot_be_answered_is_nobody_of_ours(records: Engine) -> None:
    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        assert await centre.deliver(b"win a prize", sender="YARDS", ton=5) == 0

    assert listening(records, deliver).messages == []


@pytest.mark.parametrize("size", HeaderSize)
def test_parts_in_any_order_are_joined(records: Engine, size: HeaderSize) -> None:
    text = ", ".join(f"{box}a eggs {box}b no eggs" for box in range(1, 26))
    parts = split(text, size)

    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        for number in (3, 1, 4, 2):
            header = write_header(PartNumber(200, len(parts), number, size))
            words = header + encode(parts[number - 1])
            assert taken.messages == []
            assert await centre.deliver(words, esm_class=0x40) == 0

    assert len(parts) == 4
    assert listening(records, deliver).texts == [text]


def test_parts_that_are_numbered_apart_from_the_words_are_joined(records: Engine) -> None:
    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        for number, words in ((2, b"5b no eggs"), (1, b"4a eggs, ")):
            tlvs = [
                Tlv(numbers.TLV_SAR_MSG_REF_NUM, (4711).to_bytes(2, "big")),
                Tlv(numbers.TLV_SAR_TOTAL_SEGMENTS, b"\x02"),
                Tlv(numbers.TLV_SAR_SEGMENT_SEQNUM, bytes([number])),
            ]
            assert await centre.deliver(words, tlvs=tlvs) == 0

    assert listening(records, deliver).texts == ["4a eggs, 5b no eggs"]


def test_parts_on_both_sides_of_a_restart_are_joined(records: Engine) -> None:
    def part(number: int, words: bytes) -> Deliveries:
        header = write_header(PartNumber(9, 2, number))

        async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
            assert await centre.deliver(header + words, esm_class=0x40) == 0

        return deliver

    assert listening(records, part(2, b"5b no eggs")).messages == []
    assert listening(records, part(1, b"4a eggs, ")).texts == ["4a eggs, 5b no eggs"]


def test_a_message_whose_part_never_came_is_answered_all_the_same(records: Engine) -> None:
    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        header = write_header(PartNumber(9, 2, 2))
        await centre.deliver(header + b"5b no eggs", esm_class=0x40)

    async def later(centre: MessageCentre, taken: TakenIn) -> None:
        while not taken.messages:
            await asyncio.sleep(0.01)

    assert listening(records, deliver).messages == []
    taken = listening(records, later, TakenIn(AT + WAIT))
    assert [(message.address, message.text) for message in taken.messages] == [(ADA, "")]


def test_a_message_that_was_not_stored_is_kept_by_the_centre(records: Engine) -> None:
    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        assert await centre.deliver(b"4a eggs") == 0x64
        taken.full = False
        assert await centre.deliver(b"4a eggs") == 0

    assert listening(records, deliver, TakenIn(AT, full=True)).texts == ["4a eggs"]


def test_the_same_words_over_a_line_that_held_were_said_twice(records: Engine) -> None:
    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        for _ in range(3):
            assert await centre.deliver(b"more") == 0

    taken = listening(records, deliver)
    assert len({message.id for message in taken.messages}) == 3


def test_after_an_answer_that_took_long_the_same_words_may_be_the_same_message(
    records: Engine,
) -> None:
    class Slow(TakenIn):
        async def receive(self, message: IncomingMessage) -> None:
            await super().receive(message)
            self.now += timedelta(seconds=20)

    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        assert await centre.deliver(b"4a eggs") == 0
        assert await centre.deliver(b"4a eggs") == 0
        taken.now += timedelta(minutes=5)
        assert await centre.deliver(b"4a eggs") == 0

    first, again, later = (one.id for one in listening(records, deliver, Slow(AT)).messages)
    assert first == again != later


def test_the_same_words_over_the_next_line_are_the_centre_s_repeat(records: Engine) -> None:
    async def run() -> list[str]:
        taken, port = TakenIn(AT), free_port()
        channel = channel_to(port, records, taken)
        task = asyncio.create_task(channel.listen(taken.receive))
        for _ in range(2):
            async with running_centre(port) as centre:
                await centre.deliver(b"4a eggs")
        task.cancel()
        await asyncio.gather(task, return_exceptions=True)
        await channel.close()
        return [message.id for message in taken.messages]

    first, again = asyncio.run(run())
    assert first == again


# Appendix B and 5.2.28 of SMPP v3.4.
@pytest.mark.parametrize(
    ("stat", "delivery"),
    [
        ("DELIVRD", Delivery.DELIVERED),
        ("ACCEPTD", Delivery.HANDED_OVER),
        ("EXPIRED", Delivery.FAILED),
        ("UNDELIV", Delivery.FAILED),
        ("REJECTD", Delivery.FAILED),
    ],
)
def test_receipts_tell_how_a_message_fared(records: Engine, stat: str, delivery: Delivery) -> None:
    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        assert await centre.receipt("m1", stat) == 0

    taken = listening(records, deliver)
    send_error = SendError.CARRIER_FAILED if delivery is Delivery.FAILED else None
    assert taken.reports == [DeliveryReport("sms", "m1", delivery, AT, error=send_error)]
    assert taken.messages == []


def test_a_receipt_in_optional_fields_counts_whatever_its_text(records: Engine) -> None:
    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        tlvs = [
            Tlv(numbers.TLV_RECEIPTED_MESSAGE_ID, b"m7\0"),
            Tlv(numbers.TLV_MESSAGE_STATE, b"\x05"),
        ]
        assert await centre.deliver(b"whatever", esm_class=0x04, tlvs=tlvs) == 0
        assert await centre.deliver(b"nothing sound", esm_class=0x04) == 0

    (report,) = listening(records, deliver).reports
    assert (report.carrier_id, report.delivery) == ("m7", Delivery.FAILED)


def test_a_long_morning_is_delivered_with_its_last_part(records: Engine) -> None:
    async def deliver(centre: MessageCentre, taken: TakenIn) -> None:
        channel = channel_to(centre.port, records, taken)
        outcome = await channel.send(OutgoingMessage(ADA, "x" * 400, key="17"))
        assert outcome.carrier_id == "m1 m2 m3"
        await channel.close()
        for own in ("m2", "m3", "m1"):
            with reading(records) as session:
                assert delivery_of(session, "sms", ["m1", "m2", "m3"]) is Delivery.HANDED_OVER
            await centre.receipt(own, "DELIVRD")
            with writing(records) as session:
                note_report(session, taken.reports[-1])

    listening(records, deliver)
    with reading(records) as session:
        assert delivery_of(session, "sms", ["m1", "m2", "m3"]) is Delivery.DELIVERED


def test_one_line_carries_both_ways(records: Engine) -> None:
    async def run() -> tuple[SendOutcome, int, list[str]]:
        taken = TakenIn(AT)
        async with running_centre() as centre:
            channel = channel_to(centre.port, records, taken)
            task = asyncio.create_task(channel.listen(taken.receive))
            await centre.listener()
            outcome = await channel.send(OutgoingMessage(ADA, "4b eggs"))
            await centre.deliver(b"4a eggs")
            task.cancel()
            await asyncio.gather(task, return_exceptions=True)
            await channel.close()
            return outcome, len(centre.bound), taken.texts

    outcome, lines, texts = asyncio.run(run())
    assert (outcome.result, lines, texts) == (SendResult.SENT, 1, ["4a eggs"])


def test_after_the_centre_was_away_both_ways_go_on(records: Engine) -> None:
    async def run() -> tuple[SendOutcome, list[str]]:
        taken, port = TakenIn(AT), free_port()
        channel = channel_to(port, records, taken)
        task = asyncio.create_task(channel.listen(taken.receive))
        for text in (b"4a eggs", b"5a eggs"):
            async with running_centre(port) as centre:
                await centre.deliver(text)
        async with running_centre(port) as centre:
            await centre.listener()
            outcome = await channel.send(OutgoingMessage(ADA, "4b eggs"))
        task.cancel()
        await asyncio.gather(task, return_exceptions=True)
        await channel.close()
        return outcome, taken.texts

    outcome, texts = asyncio.run(run())
    assert outcome.result is SendResult.SENT
    assert texts == ["4a eggs", "5a eggs"]
