"""Words about what is kept of a person, and about forgetting it."""

from collections.abc import Iterator
from textwrap import wrap

from bot.channels.sms.segments import fits, is_gsm7
from bot.wording.message import Message
from bot.wording.people_texts import asked_once
from bot.wording.plain_letters import to_gsm7


def data_in_file() -> str:
    """Say what is in the file that goes with it."""
    return "All that is kept about you is in this file. forget me takes it away."


def data_in_parts(data: str, most_segments: int) -> tuple[str, ...]:
    """Lay what is kept into messages of at most so many segments; "more" gives the next."""
    per_segment = _GSM7_OF_A_PART if is_gsm7(data) else _UCS2_OF_A_PART
    wrapped = wrap(f"{_HEAD} {' '.join(data.split())}", most_segments * per_segment)
    return tuple(piece for part in wrapped for piece in _fitting(part, most_segments))


_HEAD = "All that is kept about you; more gives the next part, add chat or add mail the file:"
_GSM7_OF_A_PART, _UCS2_OF_A_PART = 153, 67
"""Letters of a segment that is one of several."""


def _fitting(part: str, most_segments: int) -> Iterator[str]:
    """Halve what is too long after all: some letters count twice."""
    if fits(part, most_segments) or len(part) < 2:
        yield part
        return
    for half in (part[: len(part) // 2], part[len(part) // 2 :]):
        yield from _fitting(half, most_segments)


def forget_asked() -> Message:
    """Ask whether all about the person is to be forgotten."""
    return asked_once(
        "Forget your name, numbers, addresses and messages, in every crew of yours? What you noted "
        "of the bees stays, without your name.",
        "forget me yes",
    )


def hand_over_first(crew: str) -> str:
    """Refuse to forget the only owner of people who stay."""
    return to_gsm7(f"{crew} would have no owner. First make another one, as in: NAME owner")


def forgotten() -> str:
    """Confirm that nothing is kept any more."""
    return "Forgotten. What you noted of the bees stays without your name. Goodbye."
