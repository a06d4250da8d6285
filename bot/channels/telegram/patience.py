"""How long to wait before asking the Bot API again."""

import asyncio
import os
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from datetime import timedelta
from typing import TypeVar

from telegram.error import Conflict, InvalidToken, RetryAfter, TelegramError

from bot.channels.channel import ChannelBroken
from bot.events import log_of

# The library gives waits as timedeltas from its next major version on, and warns until then.
os.environ["PTB_TIMEDELTA"] = "1"

log = log_of(__name__)

T = TypeVar("T")


@dataclass(frozen=True)
class Patience:
    """Waits between tries: doubling from ``first`` up to ``longest``.

    Attributes:
        first: the wait after the first failure.
        longest: no wait is longer, except one that Telegram asks for.
        other_poller: the wait when another program fetches this bot's messages.

    """

    first: timedelta = timedelta(seconds=1)
    longest: timedelta = timedelta(minutes=1)
    other_poller: timedelta = timedelta(seconds=30)

    def after(self, error: Exception, failures: int) -> timedelta:
        """Say how long to wait after ``failures`` (1 or more) in a row, the last ``error``."""
        if isinstance(error, RetryAfter):
            return asked_wait(error)
        if isinstance(error, Conflict):
            return self.other_poller
        return min(self.first * (1 << min(failures - 1, 20)), self.longest)

    async def until_answered(self, doing: str, ask: Callable[[], Awaitable[T]]) -> T:
        """Ask until the Bot API answers; each failure is one line in the log.

        Raises:
            ChannelBroken: the token is refused.

        """
        failures = 0
        while True:
            try:
                return await ask()
            except InvalidToken:
                # The library's own message repeats the token.
                raise ChannelBroken("Telegram does not know this bot's token") from None
            except TelegramError as error:
                failures += 1
                await self.pause(doing, error, failures, plain(error))

    async def pause(self, doing: str, error: Exception, failures: int, said: str = "") -> None:
        """Log what failed, with the carrier's words if it had any, and wait."""
        wait = self.after(error, failures).total_seconds()
        log.warning(
            "trying again",
            channel="telegram",
            what=doing,
            error=type(error).__name__,
            said=said,
            failures=failures,
            wait_seconds=wait,
        )
        await asyncio.sleep(wait)


def asked_wait(error: RetryAfter) -> timedelta:
    """Read the wait that Telegram asks for."""
    wait: int | timedelta = error.retry_after
    return wait if isinstance(wait, timedelta) else timedelta(seconds=wait)


def plain(error: TelegramError) -> str:
    """Say in a few words what went wrong, without the token."""
    if isinstance(error, Conflict):
        return "another program is fetching this bot's messages; stop one of the two"
    return str(error)
