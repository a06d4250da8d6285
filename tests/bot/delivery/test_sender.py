"""The round that carries messages out, on a channel that does what the test says."""

import asyncio
import logging
import time
from collections.abc import Collection, Iterator
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta

import pytest

from bot.channels.channel import OutgoingMessage, Receive, SendOutcome, SendResult
from bot.channels.outcome import failed
from bot.channels.send_error import SendError
from bot.channels.traits import SMS, ChannelTraits, RateLimit
from bot.delivery import sender
from bot.delivery.rate_limit import hold, take_slot
from bot.delivery.rules import LEASE, SEND_WITHIN, Purpose
from bot.delivery.sender import AT_ONCE, Sender, deliver_all
from bot.monitoring import Counted, all_counts
from bot.program_log import private_formatter
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from scheduling.records.addresses import address_rows
from scheduling.records.crew_records import CrewRecords
from scheduling.records.crews import add_crew
from scheduling.records.engine import reading, writing
from tests.bot.delivery.counter import NOW, Counter, after

SENT = SendOutcome(SendResult.SENT)


@dataclass
class Line:
    """A channel whose sends end as told; then all arrive, to some only when let through."""

    name: str = "phone"
    traits = ChannelTraits("phone")
    ends: Iterator[SendOutcome | BaseException] = field(default_factory=lambda: iter(()))
    taken: list[str] = field(default_factory=list)
    slow_to: Collection[str] = ()
    through: asyncio.Event = field(default_factory=asyncio.Event)

    async def listen(self, receive: Receive) -> None:
        """Nothing comes in by itself."""

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        self.taken.append(outgoing.text)
        if outgoing.address in self.slow_to:
            await self.through.wait()
        end = next(self.ends, SENT)
        if isinstance(end, BaseException):
            raise end
        return end

    async def close(self) -> None:
        """Nothing to let go of."""


def carry(counter: Counter, line: Line, at: float = 0) -> list[str]:
    """What a round at an instant hands to the channel."""
    before = len(line.taken)
    asyncio.run(deliver_all(counter.engine, {line.name: line}, lambda: after(at)))
    return line.taken[before:]


def test_a_round_sends_everything_in_order(counter: Counter) -> None:
    for key, to in (("a", "11"), ("b", "12"), ("c", "11")):
        counter.plan(key, to=to)
    line = Line()

    assert carry(counter, line) == ["a", "b", "c"]
    assert {counter.state(key) for key in "abc"} == {"sent"}
    assert carry(counter, line) == []


def test_a_round_waits_for_the_slots_that_answers_took(counter: Counter) -> None:
    counter.plan("morning", purpose=Purpose.MORNING)
    rate_limit = RateLimit(timedelta(seconds=0.1), timedelta(seconds=1), "invented")
    began = time.monotonic()
    with writing(counter.engine) as session:
        for answered in ("21", "22", "23", "24"):
            take_slot(session, "phone", answered, NOW, rate_limit)
    line = Line()

    def now() -> datetime:
        return NOW + timedelta(seconds=time.monotonic() - began)

    asyncio.run(Sender(counter.engine, {"phone": line}, now, {"phone": rate_limit}).round())
    assert line.taken == ["morning"]
    assert now() >= after(0.4)


def test_a_round_ends_where_the_carrier_asked_for_a_wait(counter: Counter) -> None:
    counter.plan("morning", purpose=Purpose.MORNING)
    rate_limit = RateLimit(timedelta(seconds=0.1), timedelta(seconds=1), "invented")
    with writing(counter.engine) as session:
        for told_to_wait in ("21", "22"):
            hold(session, "phone", told_to_wait, NOW, after(17))
    line = Line()

    asyncio.run(Sender(counter.engine, {"phone": line}, lambda: NOW, {"phone": rate_limit}).round())
    assert line.taken == []


def test_segments_are_counted_by_the_carrier_that_took_them(counter: Counter) -> None:
    """160 septets go into one segment (3GPP TS 23.040, 9.2.3.24), so 161 take two."""
    line = Line(ends=iter([SENT, failed(SendError.NO_CONNECTION)]))
    line.traits = replace(SMS, name="phone", carrier="smpp")
    counted = (Counted.SEGMENTS, (("carrier", "smpp"),))
    before = all_counts().get(counted, 0)
    for key in ("e" * 161, "f"):
        counter.plan(key, to=key[0])
    carry(counter, line)

    assert all_counts()[counted] - before == 2


def test_a_failed_send_names_its_cause_in_the_log(
    counter: Counter, caplog: pytest.LogCaptureFixture
) -> None:
    errors = list(SendError)
    for error in errors:
        counter.plan(str(error), to=str(error))
    with caplog.at_level(logging.WARNING, "bot.delivery.sender"):
        carry(counter, Line(ends=map(failed, errors)))
    lines = [private_formatter().format(record) for record in caplog.records]
    told = [line for line in lines if 'event="a message was not sent"' in line]

    assert len(told) == len(errors)
    for error in errors:
        assert any(f"error={error} " in f"{line} ".replace('"', "") for line in told), error


def test_a_slow_send_holds_up_nobody_else(counter: Counter) -> None:
    for number in range(30):
        counter.plan(str(number), to=str(number))
    line = Line(slow_to={"0"})

    async def run() -> str:
        carrying = asyncio.create_task(deliver_all(counter.engine, {"phone": line}, lambda: NOW))
        async with asyncio.timeout(WAIT_AT_MOST_SECONDS):
            while any(counter.state(str(number)) != "sent" for number in range(1, 30)):
                await asyncio.sleep(0.01)
        waiting = counter.state("0")
        line.through.set()
        await carrying
        return waiting

    assert asyncio.run(run()) == "claimed"
    assert counter.state("0") == "sent"


def test_a_message_is_claimed_only_when_its_send_can_begin_so_that_a_crash_leaves_few_in_doubt(
    counter: Counter,
) -> None:
    for number in range(AT_ONCE + 10):
        counter.plan(str(number), to=str(number))
    everybody = {str(number) for number in range(AT_ONCE + 10)}
    line = Line(slow_to=everybody)

    async def run() -> list[str]:
        carrying = asyncio.create_task(deliver_all(counter.engine, {"phone": line}, lambda: NOW))
        async with asyncio.timeout(WAIT_AT_MOST_SECONDS):
            while len(line.taken) < AT_ONCE:
                await asyncio.sleep(0.01)
        await asyncio.sleep(0.6)
        claimed = [key for key in everybody if counter.state(key) == "claimed"]
        line.through.set()
        await carrying
        return claimed

    assert len(asyncio.run(run())) == AT_ONCE
    assert {counter.state(key) for key in everybody} == {"sent"}


def test_a_send_without_an_end_is_in_doubt_before_its_lease_ends(
    counter: Counter, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sender, "SEND_WITHIN", timedelta(seconds=0.1))
    counter.plan("a")
    line = Line(slow_to={"11"})
    carry(counter, line)

    assert (counter.state("a"), counter.row("a").doubts) == ("planned", 1)
    assert counter.row("a").error == "no answer"
    assert SEND_WITHIN < LEASE


def test_a_message_whose_turn_passed_is_claimed_anew_before_it_is_sent(counter: Counter) -> None:
    """As when the machine slept between the claim and the send."""
    counter.plan("a")
    times = iter([NOW, NOW, after(9), after(9)])
    line = Line()
    asyncio.run(Sender(counter.engine, {"phone": line}, lambda: next(times, after(9.1))).round())

    assert line.taken == ["a"]
    row = counter.row("a")
    assert (row.state, row.attempts, row.doubts) == ("sent", 2, 0)


def test_a_channel_that_raises_leaves_its_message_in_doubt_and_the_round_goes_on(
    counter: Counter,
) -> None:
    counter.plan("a", to="11")
    counter.plan("b", to="12")
    line = Line(ends=iter([RuntimeError("a fault of the channel")]))

    assert carry(counter, line) == ["a", "b"]
    assert (counter.state("a"), counter.state("b")) == ("planned", "sent")
    assert counter.row("a").carrier_said == "RuntimeError: a fault of the channel"
    assert carry(counter, line, 60) == ["a"]


def test_a_flooded_address_waits_and_its_messages_stay_in_order(counter: Counter) -> None:
    counter.plan("a")
    counter.plan("b")
    wait = SendOutcome(SendResult.LATER, wait=timedelta(seconds=5))
    line = Line(ends=iter([wait]))

    assert carry(counter, line) == ["a"]
    assert carry(counter, line, 4.9) == []
    assert carry(counter, line, 5) == ["a", "b"]


def test_a_round_told_to_stop_ends_after_the_message_in_hand(counter: Counter) -> None:
    counter.plan("a", to="11")
    counter.plan("b", to="12")
    line = Line()
    post = Sender(counter.engine, {"phone": line}, lambda: NOW)
    asyncio.run(post.round(going_on=lambda: counter.state("a") == "planned"))

    assert line.taken == ["a"]
    assert (counter.state("a"), counter.state("b")) == ("sent", "planned")


def test_a_send_that_is_cancelled_is_taken_again_when_its_lease_ends(counter: Counter) -> None:
    counter.plan("a")
    line = Line(ends=iter([asyncio.CancelledError()]))
    with pytest.raises(asyncio.CancelledError):
        carry(counter, line)

    assert counter.state("a") == "claimed"
    assert carry(counter, line, LEASE.total_seconds()) == ["a"]


def test_messages_for_a_channel_that_does_not_run_stay_and_hold_up_nobody(
    counter: Counter,
) -> None:
    counter.plan("a", channel="console")
    counter.plan("b")

    assert carry(counter, Line()) == ["b"]
    assert counter.state("a") == "planned"


def with_ada(counter: Counter) -> int:
    """Ada's number; she has the address 11."""
    with writing(counter.engine) as session:
        records = CrewRecords(session, add_crew(session, "Ada's crew").id)
        ada = records.add_person("Ada", zone="UTC", now=NOW)
        records.add_address(ada.id, "phone", "11")
    return ada.id


@pytest.mark.parametrize(
    ("results", "gone"),
    [
        ([SendResult.UNREACHABLE], True),
        ([SendResult.UNREACHABLE, SendResult.SENT], False),
        ([SendResult.REFUSED], False),
        ([SendResult.UNKNOWN], False),
    ],
)
def test_only_a_refusal_of_the_address_marks_it_and_an_arrival_clears_it(
    counter: Counter, results: list[SendResult], gone: bool
) -> None:
    with_ada(counter)
    for key in "ab"[: len(results)]:
        counter.plan(key)
    carry(counter, Line(ends=iter([SendOutcome(result) for result in results])))

    with reading(counter.engine) as session:
        (row,) = address_rows(session, "phone", "11")
        assert (row.unreachable_since is not None) is gone


def test_what_comes_back_to_an_address_found_gone_goes_elsewhere_and_asks_the_carrier_nothing(
    counter: Counter,
) -> None:
    ada = with_ada(counter)
    with writing(counter.engine) as session:
        CrewRecords(session, 1).add_address(ada, "sms", "+12025550123")
    counter.plan("news", purpose=Purpose.NEWS, person_id=ada)
    line = Line(ends=iter([SendOutcome(SendResult.LATER)]))
    assert carry(counter, line) == ["news"]
    with writing(counter.engine) as session:
        (row,) = address_rows(session, "phone", "11")
        row.unreachable_since = NOW

    assert carry(counter, line, 60) == []
    assert counter.state("news") == "failed"
    assert counter.state("news>sms") == "planned"


def test_a_person_whose_chat_moved_is_found_at_its_new_number(counter: Counter) -> None:
    with_ada(counter)
    counter.plan("a")
    carry(counter, Line(ends=iter([SendOutcome(SendResult.LATER, moved_to="-100")])))

    with reading(counter.engine) as session:
        assert address_rows(session, "phone", "-100")
        assert not address_rows(session, "phone", "11")


def test_a_round_with_nothing_to_send_sends_nothing(counter: Counter) -> None:
    assert carry(counter, Line()) == []
