"""Answers about a person's quiet hours."""

from collections.abc import Mapping
from datetime import time

from bot.wording.plain_letters import to_gsm7
from bot.wording.set_up import clock


def quiet_words(spans: Mapping[str, tuple[time, time]], zone: str) -> str:
    """Say when nothing comes unasked on each channel, in the person's zone."""
    if len(set(spans.values())) == 1:
        told = _span(next(iter(spans.values())))
    else:
        told = "; ".join(f"{channel} {_span(span)}" for channel, span in spans.items())
    return to_gsm7(
        f"Quiet {told}, {zone} time: nothing but answers to you comes then. "
        "Change: quiet 21 to 6, quiet off, usual quiet. An earlier morning: morning 5:45"
    )


def _span(span: tuple[time, time]) -> str:
    begin, end = span
    return "never" if begin == end else f"{clock(begin)} to {clock(end)}"
