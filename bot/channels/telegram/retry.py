"""Requests to the Bot API, by the library's own HTTP client, one trust store, and retry."""

import asyncio
import json
import os
import ssl
from collections.abc import Awaitable, Callable
from contextvars import ContextVar
from dataclasses import dataclass
from datetime import timedelta
from functools import cache
from typing import Any, TypeVar

import httpx
from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError
from telegram.request import HTTPXRequest
from tenacity import AsyncRetrying, RetryCallState, retry_if_exception

from bot.backoff import Backoff
from bot.channels.channel import ChannelBroken
from bot.program_log import log_of

# The library gives waits as timedeltas from its next major version on, and warns until then.
os.environ["PTB_TIMEDELTA"] = "1"

log = log_of(__name__)

T = TypeVar("T")


@cache
def tls() -> ssl.SSLContext:
    """Make the trust store for the bot's connections once: reading it is most of the start-up."""
    return httpx.create_ssl_context()


_ANSWER: ContextVar[bytes] = ContextVar("answer", default=b"")
"""What the server answered to the last request of this task; many are under way at a time."""


def forget_answer() -> None:
    """Let go of the last answer, so that none before the next request is taken for its own."""
    _ANSWER.set(b"")


def is_ok() -> bool:
    """Tell whether the server said "ok" to the last request of this task, whatever else it said."""
    try:
        answer = json.loads(_ANSWER.get())
    except (ValueError, RecursionError):
        return False
    return isinstance(answer, dict) and answer.get("ok") is True


class BotApiRequest(HTTPXRequest):
    """Connections to the Bot API, which keep the last answer, to look into it again.

    What went wrong is the cause of the library's error, by which it is told whether the server was
    met at all. httpx itself never repeats a request, nor follows a redirect with the token.

    Args:
        read_timeout: how many seconds the server may be silent.
    """

    last_answer: bytes = b""

    def __init__(self, read_timeout: float) -> None:
        super().__init__(
            read_timeout=read_timeout, httpx_kwargs={"verify": tls(), "follow_redirects": False}
        )

    async def do_request(self, *args: Any, **kwargs: Any) -> tuple[int, bytes]:
        """Send the request as the library does, and keep the answer."""
        status, self.last_answer = await super().do_request(*args, **kwargs)
        _ANSWER.set(self.last_answer)
        return status, self.last_answer


WAITS = Backoff(timedelta(seconds=1), timedelta(minutes=1))


@dataclass(frozen=True)
class Retry:
    """Tries until it goes well; each failure is one line in the log.

    Attributes:
        backoff: the waits between tries; none is longer, except one that Telegram asks for.
        other_poller: the wait when another program fetches this bot's messages.
        sleep: waits so many seconds.
    """

    backoff: Backoff = WAITS
    other_poller: timedelta = timedelta(seconds=30)
    sleep: Callable[[float], Awaitable[None]] = asyncio.sleep

    def after(self, error: BaseException, failures: int) -> timedelta:
        """Say how long to wait after ``failures`` (1 or more) in a row, the last ``error``."""
        if isinstance(error, RetryAfter):
            return asked_wait(error)
        if isinstance(error, Conflict):
            return self.other_poller
        return self.backoff.after(failures)

    async def until_answered(self, doing: str, ask: Callable[[], Awaitable[T]]) -> T:
        """Ask until the Bot API answers.

        Raises:
            ChannelBroken: the token is refused.
        """
        try:
            return await self.until_done(doing, ask, _may_pass, plain)
        except InvalidToken:
            # The library's own message repeats the token.
            raise ChannelBroken("Telegram does not know this bot's token") from None

    async def until_done(
        self,
        doing: str,
        do: Callable[[], Awaitable[T]],
        may_pass: Callable[[BaseException], bool],
        said: Callable[[BaseException], str],
    ) -> T:
        """Do it until it goes well.

        Args:
            doing: what the log calls it.
            do: does it.
            may_pass: whether an error may pass by itself; any other is raised.
            said: the carrier's or the database's words in an error, if it has any.
        """

        def wait_seconds(tried: RetryCallState) -> float:
            return self.after(_error(tried), tried.attempt_number).total_seconds()

        def tell(tried: RetryCallState) -> None:
            log.warning(
                "trying again",
                channel="telegram",
                what=doing,
                error=type(_error(tried)).__name__,
                said=said(_error(tried)),
                failures=tried.attempt_number,
                wait_seconds=tried.upcoming_sleep,
            )

        async def attempt() -> T:
            return await do()

        again = retry_if_exception(may_pass)
        retrying = AsyncRetrying(self.sleep, wait=wait_seconds, retry=again, before_sleep=tell)
        return await retrying(attempt)


def _error(tried: RetryCallState) -> BaseException:
    assert tried.outcome is not None  # noqa: S101 - it is asked of after a call
    error = tried.outcome.exception()
    assert error is not None  # noqa: S101 - a call that went well is not tried again
    return error


def _may_pass(error: BaseException) -> bool:
    return isinstance(error, TelegramError) and not isinstance(error, InvalidToken)


def asked_wait(error: RetryAfter) -> timedelta:
    """Read the wait that Telegram asks for."""
    wait: int | timedelta = error.retry_after
    return wait if isinstance(wait, timedelta) else timedelta(seconds=wait)


def plain(error: BaseException) -> str:
    """Say in a few words what went wrong, without the token."""
    if isinstance(error, Conflict):
        return "another program is fetching this bot's messages; stop one of the two"
    return str(error)
