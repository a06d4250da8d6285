"""Text messages through Twilio: its message API, and its notices over HTTP."""

from bot.channels.twilio.account import TwilioAccount
from bot.channels.twilio.channel import TwilioChannel

__all__ = ["TwilioAccount", "TwilioChannel"]
