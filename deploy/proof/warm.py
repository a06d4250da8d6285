"""Loaded once by the process from which workers are forked, so that each need not begin anew.

Nothing here opens a file, a connection or a thread that a worker would share.
"""

from datetime import date

import bot.command.database
import bot.serving
import deploy.proof.worker
from bot.channels.telegram.retry import tls
from bot.reading.reader import read
from bot.reading.situation import Situation, YardUnits
from deploy.proof.people import UNITS, YARD

__all__ = ["bot", "deploy"]

tls()
read("1a eggs, 2b fed 1 quart", Situation(date(2025, 5, 1), (YardUnits(YARD, UNITS),)))
