"""Text messages over SMPP 3.4, for a club with a contract."""

from bot.channels.smpp.account import SmppAccount
from bot.channels.smpp.channel import SmppChannel

__all__ = ["SmppAccount", "SmppChannel"]
