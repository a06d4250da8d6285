"""How long a text is over SMS, and how to keep it in the cheap alphabet."""

from bot.channels.sms.alphabet import BASIC, EXTENSION, is_gsm7, septets
from bot.channels.sms.segments import fits, segments, split
from bot.wording.plain_letters import to_gsm7

__all__ = ["BASIC", "EXTENSION", "fits", "is_gsm7", "segments", "septets", "split", "to_gsm7"]
