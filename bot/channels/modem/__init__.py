"""Text messages through a USB modem, kept by Gammu's message daemon in folders."""

from bot.channels.modem.channel import ModemChannel
from bot.channels.modem.folders import ModemFolders

__all__ = ["ModemChannel", "ModemFolders"]
