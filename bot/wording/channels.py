"""Answers about the channels on which a person is reached."""

from collections.abc import Sequence

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
        return to_gsm7(f"You are reached by {names[0]} alone. A number beside it: number and it.")
    when = "only when it fails" if minutes is None else f"or after {minutes} minutes undelivered"
    return to_gsm7(
        f"{names[0]} first, then {' then '.join(names[1:])}, {when}. "
        "Change: text first, other channel after 30 minutes, other channel never"
    )


def not_yours(channel: str) -> str:
    """Refuse a channel on which the person is not reached."""
    how = "number and it" if channel == "sms" else "write to me there first"
    return to_gsm7(f"You have no {_NAMES.get(channel, channel)} with me yet: {how}.")
