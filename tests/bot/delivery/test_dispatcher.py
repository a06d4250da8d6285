"""The office answers what comes in, and ends what it has in hand when told to stop."""

import asyncio
from dataclasses import dataclass, field, replace

from sqlalchemy import Engine

from bot.channels.channel import IncomingMessage, OutgoingMessage, Receive, SendOutcome, SendResult
from bot.channels.traits import ChannelTraits
from bot.conversation.message_handler import MessageHandler
from bot.delivery.dispatcher import App, Dispatcher
from bot.delivery.rules import Purpose
from deploy.standins.waiting import WAIT_AT_MOST_SECONDS
from tests.bot.delivery.counter import NOW, Counter

WRITTEN = IncomingMessage("phone", "11", "11:1", "hello?", NOW, sender="Ada")


@dataclass
class SlowLine:
    """A channel on which each send begins, and arrives when it is let through."""

    name: str = "phone"
    traits = ChannelTraits("phone")
    begun: list[str] = field(default_factory=list)
    arrived: list[str] = field(default_factory=list)
    through: asyncio.Event = field(default_factory=asyncio.Event)

    async def listen(self, receive: Receive) -> None:
        """Nothing comes in by itself."""

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        self.begun.append(outgoing.text)
        await self.through.wait()
        self.arrived.append(outgoing.text)
        return SendOutcome(SendResult.SENT)

    async def close(self) -> None:
        """Nothing to let go of."""

    async def until_begun(self, count: int = 1) -> None:
        async with asyncio.timeout(WAIT_AT_MOST_SECONDS):
            while len(self.begun) < count:
                await asyncio.sleep(0.005)


def dispatcher_on(engine: Engine, line: SlowLine) -> Dispatcher:
    return Dispatcher(App(engine, {"phone": line}, clock=lambda: NOW), MessageHandler())


def test_a_message_is_answered(engine: Engine) -> None:
    async def run() -> list[str]:
        line = SlowLine()
        line.through.set()
        dispatcher = dispatcher_on(engine, line)
        await dispatcher.receive(WRITTEN)
        await dispatcher.finish()
        return line.arrived

    (answer,) = asyncio.run(run())
    assert "begin" in answer


def test_a_listener_cancelled_in_the_middle_still_has_its_message_answered(
    engine: Engine, counter: Counter
) -> None:
    async def run() -> list[str]:
        line = SlowLine()
        dispatcher = dispatcher_on(engine, line)
        receiving = asyncio.create_task(dispatcher.receive(WRITTEN))
        await line.until_begun()
        receiving.cancel()
        await asyncio.gather(receiving, return_exceptions=True)
        asyncio.get_running_loop().call_later(0.02, line.through.set)
        await dispatcher.finish()
        return line.arrived

    assert len(asyncio.run(run())) == 1
    assert counter.state("answer:phone:11:1") == "sent"


def test_a_round_cancelled_in_the_middle_ends_its_send_and_marks_it(
    engine: Engine, counter: Counter
) -> None:
    mornings = [str(number) for number in range(40)]
    for key in mornings:
        counter.plan(key, to=key, purpose=Purpose.MORNING)

    async def run() -> list[str]:
        line = SlowLine()
        dispatcher = dispatcher_on(engine, line)
        ticking = asyncio.create_task(dispatcher.deliver())
        await line.until_begun()
        ticking.cancel()
        await asyncio.gather(ticking, return_exceptions=True)
        asyncio.get_running_loop().call_later(0.02, line.through.set)
        await dispatcher.finish()
        return line.arrived

    arrived = asyncio.run(run())
    assert 1 <= len(arrived) < 40
    assert {key for key in mornings if counter.state(key) == "sent"} == set(arrived)
    assert {counter.state(key) for key in set(mornings) - set(arrived)} == {"planned"}


def test_an_answer_does_not_wait_for_a_round_of_other_peoples_messages(
    engine: Engine, counter: Counter
) -> None:
    counter.plan("slow", to="12")

    async def run() -> list[str]:
        line = SlowLine()
        dispatcher = dispatcher_on(engine, line)
        ticking = asyncio.create_task(dispatcher.deliver())
        await line.until_begun()
        receiving = asyncio.create_task(dispatcher.receive(WRITTEN))
        await line.until_begun(2)
        line.through.set()
        await asyncio.gather(ticking, receiving)
        await dispatcher.finish()
        return line.begun

    assert len(asyncio.run(run())) == 2


def test_an_answer_behind_a_message_on_its_way_is_sent_before_the_end(
    engine: Engine, counter: Counter
) -> None:
    counter.plan("morning", to="11", purpose=Purpose.MORNING)

    async def run() -> list[str]:
        line = SlowLine()
        dispatcher = dispatcher_on(engine, line)
        ticking = asyncio.create_task(dispatcher.deliver())
        await line.until_begun()
        await dispatcher.receive(WRITTEN)
        asyncio.get_running_loop().call_later(0.02, line.through.set)
        await dispatcher.finish()
        await ticking
        return line.arrived

    first, second = asyncio.run(run())
    assert first == "morning"
    assert "begin" in second


def test_messages_of_two_people_are_worked_through_side_by_side(engine: Engine) -> None:
    async def run() -> list[str]:
        line = SlowLine()
        line.through.set()
        dispatcher = dispatcher_on(engine, line)
        others = replace(WRITTEN, address="12", id="12:1")
        await asyncio.gather(dispatcher.receive(WRITTEN), dispatcher.receive(others))
        await dispatcher.finish()
        return line.arrived

    assert len(asyncio.run(run())) == 2
