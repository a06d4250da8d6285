"""What a test of the running program starts, and the waits that are shorter in it."""

from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import timedelta
from unittest.mock import patch

from bot.channels.telegram.channel import TelegramChannel
from bot.channels.traits import RateLimit

PROGRAM = "from bot.command import main; main()"
QUICK = f"""
from dataclasses import replace
from datetime import timedelta
from bot.channels.telegram.channel import TelegramChannel
from bot.channels.traits import RateLimit
from bot.jobs import job_scheduler
quick = RateLimit(timedelta(0), timedelta(seconds=0.05), "invented")
TelegramChannel.traits = replace(TelegramChannel.traits, rate_limit=quick)
job_scheduler.MORNING_TICK_SECONDS = 1
{PROGRAM}
"""
"""The program, which looks for mornings every second and sends as fast as the stand-in takes it.

The carrier's own limits are held in the tests of delivery.
"""

QUICK_MODEM = f"""
from datetime import timedelta
from functools import partialmethod
from bot.channels.modem.channel import ModemChannel
from deploy.standins.smsd import ahead
quick = {{"look_again": timedelta(milliseconds=100), "clock": ahead}}
ModemChannel.__init__ = partialmethod(ModemChannel.__init__, **quick)
{QUICK}
"""
"""It also looks into a modem's folders every tenth of a second, by a clock that runs ahead."""

_QUICK = RateLimit(timedelta(0), timedelta(seconds=0.05), "invented")


def quick_telegram() -> AbstractContextManager[object]:
    """Send over Telegram in this process as fast as the stand-in takes it, which has no limits."""
    traits = replace(TelegramChannel.traits, rate_limit=_QUICK)
    return patch.object(TelegramChannel, "traits", traits)


DIES_OF = "the words that kill"
DYING = f"""
import os
from bot.conversation import respond
read = respond.read
def deadly(text, situation):
    if text == "{DIES_OF}":
        os._exit(9)
    return read(text, situation)
respond.read = deadly
{QUICK}
"""
"""A program that dies at once, as of a forbidden call or of memory, when it reads certain words."""
