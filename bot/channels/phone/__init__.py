"""Text messages through a keeper's own phone, on the local network."""

from bot.channels.phone.channel import PhoneChannel
from bot.channels.phone.device import PhoneDevice

__all__ = ["PhoneChannel", "PhoneDevice"]
