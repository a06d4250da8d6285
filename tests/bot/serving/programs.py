"""What a test of the running program starts, and the waits that are shorter in it."""

from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import timedelta
from unittest.mock import patch

from bot.channels.telegram.channel import TelegramChannel
from bot.channels.traits import RateLimit

PROGRAM = "from bot.command import main; main()"
QUICK_MODEM = f"""
from datetime import timedelta
from functools import partialmethod
from bot.channels.modem.channel import ModemChannel
look_again = timedelta(milliseconds=100)
ModemChannel.__init__ = partialmethod(ModemChannel.__init__, look_again=look_again)
{PROGRAM}
"""
"""The program, which looks into a modem's folders every tenth of a second, not every other one."""

_QUICK = RateLimit(timedelta(0), timedelta(seconds=0.05), "invented")


def quick_telegram() -> AbstractContextManager[object]:
    """Send over Telegram in this process as fast as the stand-in takes it, which has no limits.

    The carrier's own are held in the tests of the post.
    """
    traits = replace(TelegramChannel.traits, rate_limit=_QUICK)
    return patch.object(TelegramChannel, "traits", traits)
