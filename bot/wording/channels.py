"""Answers about the channels on which a person is reached."""

from collections.abc import Sequence
from datetime import date

from bot.wording.days import full_day
from bot.wording.plain_letters import to_gsm7

_NAMES = {"sms": "text", "telegram": "Telegram", "mail": "e-mail"}


def channels_words(channels: Sequence[str], minutes: int | None) -> str:
    """Say which channel comes first and when the next is tried.

    Args:
        channels: names of the person's channels, the first one first.
        minutes: after how long without delivery the next is tried; None for never.

    """
    names = [_NAMES.get(each, each) for each in channels]
    if len(names) < 2:
        return to_gsm7(
            f"You are reached by {names[0]} alone. One more: number and it, or add chat."
        )
    when = "only when it fails" if minutes is None else f"or after {minutes} minutes undelivered"
    return to_gsm7(
        f"{names[0]} first, then {' then '.join(names[1:])}, {when}. "
        "Change: text first, other channel after 30 minutes, other channel never"
    )


def not_yours(channel: str) -> str:
    """Refuse a channel on which the person is not reached."""
    name = _NAMES.get(channel, channel)
    how = "number and it" if channel == "sms" else f"add {name}"
    return to_gsm7(f"You have no {name} with me yet. Type: {how}")


def add_by_code(code: str, expires: date, link: str | None = None) -> str:
    """Give a person the code by which they are known on one more channel."""
    opened = f" or open {link}" if link else ""
    return to_gsm7(
        f"Send me from there: join {code}{opened}\n"
        f"Good once, to {full_day(expires)}. Whoever sends it is you to me, so tell nobody."
    )


def added(name: str, channels: Sequence[str], minutes: int | None) -> str:
    """Welcome a person on one more channel."""
    return to_gsm7(f"Yes, {name}: this is your second way to me. ") + channels_words(
        channels, minutes
    )
