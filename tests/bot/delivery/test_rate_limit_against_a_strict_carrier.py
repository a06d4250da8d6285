"""A server that counts any second exactly has nothing to refuse in a rush of mornings.

What leaves is counted: how soon a busy machine hears of it is nothing that a sender can change.
About 30 messages a second over all chats and one a second in a chat: Telegram, Bots FAQ,
core.telegram.org/bots/faq (from memory).
"""

import asyncio
import time
from collections import Counter as Count
from datetime import datetime, timedelta

from bot.channels.channel import OutgoingMessage, SendOutcome
from bot.channels.telegram.channel import TelegramChannel
from bot.delivery.rules import Purpose
from bot.delivery.sender import deliver_all
from deploy.standins.bot_api_standin import TOKEN, running_standin
from deploy.standins.quick_retry import QUICK
from tests.bot.delivery.counter import NOW, Counter

PEOPLE = 40
IN_ALL, SECOND = 30, 1.0


class Watched(TelegramChannel):
    """The real channel, of which is noted when each send began, and to whom."""

    def __init__(self, url: str) -> None:
        super().__init__(TOKEN, url, retry=QUICK)
        self.begun: list[tuple[float, str]] = []

    async def send(self, outgoing: OutgoingMessage) -> SendOutcome:
        self.begun.append((time.monotonic(), outgoing.address))
        return await super().send(outgoing)


def too_soon(begun: list[tuple[float, str]]) -> list[str]:
    """What a strict server would have refused, by the chat; "all" for everybody's limit."""
    times = [at for at, _ in begun]
    refused = ["all" for first, last in zip(times, times[IN_ALL:], strict=False)
               if last - first < SECOND]  # fmt: skip
    last_to: dict[str, float] = {}
    for at, chat in begun:
        if at - last_to.get(chat, -SECOND) < SECOND:
            refused.append(chat)
        last_to[chat] = at
    return refused


def rush(counter: Counter) -> list[tuple[float, str]]:
    """Send everybody a morning, and a few an answer beside it; when each left, and to whom."""
    for number in range(1, PEOPLE + 1):
        counter.plan(f"m{number}", to=str(number), purpose=Purpose.MORNING, channel="telegram")
    for number in range(1, 4):
        counter.plan(f"a{number}", to=str(number), channel="telegram")
    began = time.monotonic()

    def now() -> datetime:
        return NOW + timedelta(seconds=time.monotonic() - began)

    async def send() -> Watched:
        channel = Watched(api.url)
        while len(api.sent) < PEOPLE + 3:
            await deliver_all(counter.engine, {"telegram": channel}, now)
            await asyncio.sleep(0.05)
        await channel.close()
        return channel

    with running_standin() as api:
        return asyncio.run(asyncio.wait_for(send(), 60)).begun


def test_in_a_rush_a_strict_carrier_has_nothing_to_refuse(counter: Counter) -> None:
    begun = rush(counter)

    assert too_soon(begun) == []
    assert Count(chat for _, chat in begun) == Count(
        {str(number): 1 + (number < 4) for number in range(1, PEOPLE + 1)}
    )


def test_the_strict_carrier_of_the_test_refuses_what_comes_too_soon() -> None:
    assert too_soon([(n / 31, str(n)) for n in range(40)]) == ["all"] * 10
    assert too_soon([(0.0, "1"), (0.5, "2"), (0.99, "1")]) == ["1"]
    assert too_soon([(n / 30, str(n)) for n in range(40)]) == []
