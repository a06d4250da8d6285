"""Text messages over SMPP 3.4, for a club with a contract."""

from bot.channels.smpp.channel import SmppChannel
from bot.channels.smpp.link import SmppAccount

__all__ = ["SmppAccount", "SmppChannel"]
