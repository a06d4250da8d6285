"""A channel is added as DEVELOPERS.md says: its traits, its name, its class, and nothing else."""

import asyncio
from datetime import UTC, datetime, time, timedelta

import pytest
from sqlalchemy import Engine, select

from bot.channels import traits
from bot.channels.channel import (
    Channel,
    IncomingMessage,
    OutgoingMessage,
    Receive,
    SendOutcome,
    SendResult,
)
from bot.channels.traits import ChannelTraits, QuietHours, RateLimit
from bot.conversation.message_handler import MessageHandler
from bot.delivery.dispatcher import App, Dispatcher
from bot.delivery.message_tables import OutboxRow
from bot.delivery.quiet_hours import quiet_on
from bot.delivery.sms_budget import used_in_month
from bot.jobs.mornings import queue_mornings
from bot.wording.set_up_texts import channels_words
from scheduling.records.addresses import find_person
from scheduling.records.engine import reading

NOON = datetime(2027, 5, 12, 12, tzinfo=UTC)

# Step 1: its traits.
PIGEON = ChannelTraits(
    name="pigeon",
    shown_as="pigeon post",
    rate_limit=RateLimit(timedelta(seconds=0.01), timedelta(seconds=0.02), "invented"),
    quiet=QuietHours(time(18), time(9)),
    most_segments=1,
    is_charged=True,
)


# Step 2: its name.
@pytest.fixture(autouse=True)
def known(monkeypatch: pytest.MonkeyPatch) -> None:
    """The channel among all that are known."""
    monkeypatch.setitem(traits.KNOWN_CHANNELS, PIGEON.name, PIGEON)


# Step 3: its class.
class PigeonLoft:
    """Takes what a pigeon brings, and keeps what one carries away."""

    traits = PIGEON

    def __init__(self, *brought: IncomingMessage) -> None:
        self._brought = brought
        self.carried: list[OutgoingMessage] = []

    async def listen(self, receive: Receive) -> None:
        """Hand in what was brought."""
        for message in self._brought:
            await receive(message)

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        """Carry it away."""
        self.carried.append(outgoing)
        return SendOutcome(SendResult.SENT, carrier_id=f"ring {len(self.carried)}")

    async def close(self) -> None:
        """Nothing to let go of."""


def brought(*texts: str) -> list[IncomingMessage]:
    return [
        IncomingMessage("pigeon", "loft 7", f"p{number}", text, NOON, "Ada")
        for number, text in enumerate(texts)
    ]


def state(engine: Engine, *texts: str) -> PigeonLoft:
    """Have these texts brought one after the other, and everything answered."""
    loft = PigeonLoft(*brought(*texts))
    channels: dict[str, Channel] = {loft.traits.name: loft}
    ticked = iter(range(10_000))
    # A clock that goes on, so that each answer's turn comes.
    app = App(engine, channels, clock=lambda: NOON + timedelta(seconds=0.1 * next(ticked)))
    dispatcher = Dispatcher(app, MessageHandler())

    async def run() -> None:
        await loft.listen(dispatcher.receive)
        await dispatcher.finish()

    asyncio.run(run())
    return loft


def deliver(engine: Engine, at: datetime) -> PigeonLoft:
    loft = PigeonLoft()
    dispatcher = Dispatcher(App(engine, {"pigeon": loft}, clock=lambda: at), MessageHandler())
    asyncio.run(dispatcher.deliver())
    return loft


SET_UP = ("begin", "new yard River", "boxes 4-5 of 3", "10 day cell in 4a")


def test_a_reply_comes_over_it(engine: Engine) -> None:
    loft = state(engine, *SET_UP, "4a eggs")

    assert len({message.key for message in loft.carried if "answer" in message.key}) == 5
    assert all(message.address == "loft 7" for message in loft.carried)
    with reading(engine) as session:
        ada = find_person(session, "pigeon", "loft 7")
        assert ada is not None


def test_a_morning_comes_over_it_when_its_quiet_hours_end(engine: Engine) -> None:
    state(engine, *SET_UP)
    with reading(engine) as session:
        ada = find_person(session, "pigeon", "loft 7")
    assert ada is not None
    assert quiet_on("pigeon", ada) == QuietHours(time(18), time(9))

    came: dict[datetime, list[str]] = {}
    for day in range(13, 20):
        for hour in (8, 9):
            at = datetime(2027, 5, day, hour, tzinfo=UTC)
            queue_mornings(engine, at, ("pigeon",))
            came[at] = [each.text for each in deliver(engine, at).carried]

    mornings = {at: texts for at, texts in came.items() if texts}
    assert mornings
    assert {at.hour for at in mornings} == {9}
    assert all("4a" in text for texts in mornings.values() for text in texts)


def test_its_segments_count_against_the_budget(engine: Engine) -> None:
    loft = state(engine, "begin")

    with reading(engine) as session:
        sent = session.scalars(select(OutboxRow.text)).all()
        assert len(sent) == len(loft.carried)
        assert used_in_month(session, NOON) >= len(sent)


def test_people_read_what_it_is_called() -> None:
    assert "pigeon post" in channels_words(["pigeon"], None)
