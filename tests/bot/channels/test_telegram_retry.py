"""How the Bot API is asked again: how long is waited, for what, and for what not."""

import asyncio
from datetime import timedelta

import pytest
from telegram.error import BadRequest, Conflict, InvalidToken, NetworkError, RetryAfter, TimedOut

from bot.backoff import Backoff
from bot.channels.channel import ChannelBroken
from bot.channels.telegram.retry import Retry


def test_waits_double_up_to_the_longest() -> None:
    retry = Retry(Backoff(timedelta(seconds=1), timedelta(seconds=10)))
    waits = [retry.after(NetworkError("down"), failures) for failures in (1, 2, 3, 4, 5, 5000)]
    assert [wait.total_seconds() for wait in waits] == [1, 2, 4, 8, 10, 10]


def test_a_wait_that_telegram_asks_for_is_not_shortened() -> None:
    assert Retry().after(RetryAfter(900), 1) == timedelta(seconds=900)


def test_another_program_on_the_bot_is_waited_for_slowly() -> None:
    assert Retry().after(Conflict("two fetch"), 1) == timedelta(seconds=30)


class Server:
    """Fails as told, then answers; notes the waits instead of sleeping."""

    def __init__(self, *failures: Exception) -> None:
        self.failures = list(failures)
        self.waits: list[float] = []

    async def answer(self) -> str:
        if self.failures:
            raise self.failures.pop(0)
        return "well"

    async def sleep(self, seconds: float) -> None:
        self.waits.append(seconds)

    def asked(self) -> str:
        return asyncio.run(Retry(sleep=self.sleep).until_answered("asking", self.answer))


def test_it_asks_until_the_server_answers(caplog: pytest.LogCaptureFixture) -> None:
    server = Server(
        NetworkError("down"), TimedOut(), Conflict("two"), RetryAfter(90), BadRequest("?")
    )
    assert server.asked() == "well"
    assert server.waits == [1, 2, 30, 90, 16]
    assert [record.getMessage() for record in caplog.records].count("trying again") == 5


def test_a_token_that_is_refused_is_not_asked_about_again() -> None:
    server = Server(NetworkError("down"), InvalidToken("123456:INVENTED"))
    with pytest.raises(ChannelBroken) as broken:
        server.asked()
    assert server.waits == [1]
    assert "INVENTED" not in str(broken.value)


def test_a_fault_of_our_own_is_raised() -> None:
    server = Server(ZeroDivisionError())
    with pytest.raises(ZeroDivisionError):
        server.asked()
    assert server.waits == []


def test_who_waits_can_be_stopped() -> None:
    async def stopped() -> None:
        asking = asyncio.create_task(Retry().until_answered("asking", Server(TimedOut()).answer))
        await asyncio.sleep(0.01)
        asking.cancel()
        with pytest.raises(asyncio.CancelledError):
            await asking

    asyncio.run(stopped())
