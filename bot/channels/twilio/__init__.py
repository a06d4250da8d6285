"""Text messages through Twilio: its message API, and its notices over HTTP."""

from bot.channels.twilio.channel import TwilioChannel
from bot.channels.twilio.twilio_account import TwilioAccount

__all__ = ["TwilioAccount", "TwilioChannel"]
