"""A server that counts any second exactly has nothing to refuse in a rush of mornings.

About 30 messages a second over all chats and one a second in a chat: Telegram, Bots FAQ,
core.telegram.org/bots/faq (from memory).
"""

import asyncio
import time
from collections import Counter as Count
from datetime import datetime, timedelta

from bot.post.rules import Purpose
from bot.post.sender import deliver_all
from tests.bot.channels.bot_api_standin import Call, Moment, running_standin
from tests.bot.channels.telegram_listening import quick_channel
from tests.bot.post.counter import NOW, Counter

PEOPLE = 40
IN_ALL, SECOND = 30, 1.0


def too_soon(arrivals: list[tuple[float, str]]) -> list[str]:
    """What a strict server would have refused, by the chat; "all" for everybody's limit."""
    times = [at for at, _ in arrivals]
    refused = ["all" for first, last in zip(times, times[IN_ALL:], strict=False)
               if last - first < SECOND]  # fmt: skip
    last_to: dict[str, float] = {}
    for at, chat in arrivals:
        if at - last_to.get(chat, -SECOND) < SECOND:
            refused.append(chat)
        last_to[chat] = at
    return refused


def rush(counter: Counter) -> list[tuple[float, str]]:
    """Send everybody a morning, and a few an answer beside it; when each came in, and to whom."""
    for number in range(1, PEOPLE + 1):
        counter.plan(f"m{number}", to=str(number), purpose=Purpose.MORNING, channel="telegram")
    for number in range(1, 4):
        counter.plan(f"a{number}", to=str(number), channel="telegram")
    arrivals: list[tuple[float, str]] = []
    began = time.monotonic()

    def note(call: Call, moment: Moment) -> None:
        if call.method == "sendMessage" and moment is Moment.ARRIVED:
            arrivals.append((time.monotonic(), call.form["chat_id"]))

    def now() -> datetime:
        return NOW + timedelta(seconds=time.monotonic() - began)

    async def send() -> None:
        channel = quick_channel(api.url)
        while len(arrivals) < PEOPLE + 3:
            await deliver_all(counter.engine, {"telegram": channel}, now)
            await asyncio.sleep(0.05)
        await channel.close()

    with running_standin() as api:
        api.watch = note
        asyncio.run(asyncio.wait_for(send(), 60))
    return arrivals


def test_in_a_rush_a_strict_carrier_has_nothing_to_refuse(counter: Counter) -> None:
    arrivals = rush(counter)

    assert too_soon(arrivals) == []
    assert Count(chat for _, chat in arrivals) == Count(
        {str(number): 1 + (number < 4) for number in range(1, PEOPLE + 1)}
    )


def test_the_strict_carrier_of_the_test_refuses_what_comes_too_soon() -> None:
    assert too_soon([(n / 31, str(n)) for n in range(40)]) == ["all"] * 10
    assert too_soon([(0.0, "1"), (0.5, "2"), (0.99, "1")]) == ["1"]
    assert too_soon([(n / 30, str(n)) for n in range(40)]) == []
