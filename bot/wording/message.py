"""A message with its buttons, and lines laid into messages of a bounded number of SMS segments."""

from collections.abc import Sequence
from dataclasses import dataclass

from bot.channels.channel import Button, Document, OutgoingMessage
from bot.channels.sms.segments import fits
from bot.wording.plain_letters import to_gsm7
from bot.wording.yard_lines import YardLine
from scheduling.places import Place


@dataclass(frozen=True)
class Message:
    """What is sent now (``parts[0]``) and what ``more`` gives, in order.

    ``buttons`` belong under the first part; everything they do can be typed. ``once`` is for
    what must not be sent again when nobody knows whether it arrived. ``document`` is a file that
    goes with the first part, for channels that take files. ``places`` are what a reply that quotes
    it and names no unit is about. ``pressed`` stands in place of the button that was pressed, if
    this answers one.
    """

    parts: tuple[str, ...]
    buttons: tuple[tuple[Button, ...], ...] = ()
    once: bool = False
    document: Document | None = None
    places: tuple[Place, ...] = ()
    pressed: str = ""

    @classmethod
    def of(cls, text: str) -> "Message":
        """Make a message of one part, without buttons."""
        return cls((text,))

    @property
    def text(self) -> str:
        """What is sent now."""
        return self.parts[0]

    def outgoing(self, address: str) -> OutgoingMessage:
        """Address the first part, with its buttons."""
        return OutgoingMessage(address, self.text, self.buttons, document=self.document)


def page(title: str, lines: Sequence[YardLine], tail: str = "") -> str:
    """One message: title and first yard in one line, each further yard under its own name."""
    written, yard = [title] if title else [], None
    for line in lines:
        if line.yard != yard:
            _head(written, line.yard, first=yard is None and bool(title))
            yard = line.yard
        written.append(line.words)
    return to_gsm7("\n".join([*written, tail] if tail else written))


def _head(written: list[str], yard: str, *, first: bool) -> None:
    if first:
        written[0] = f"{written[0]}, {yard}:"
    else:
        written.append(f"{yard}:")


def pages(title: str, lines: Sequence[YardLine], tail: str, limit: int) -> tuple[str, ...]:
    """Lay lines into messages of at most ``limit`` segments.

    The first carries title and tail; each but the last says how many places are left, so that
    nothing is dropped without a word. A message always takes at least one line.
    """
    whole = page(title, lines, tail)
    if len(lines) <= 1 or fits(whole, limit):
        return (whole,)
    left = _left_after(lines)
    text, kept = page(title, lines[:1], _more(left[1], tail)), 1
    while kept + 1 < len(lines):
        longer = page(title, lines[: kept + 1], _more(left[kept + 1], tail))
        if not fits(longer, limit):
            break
        text, kept = longer, kept + 1
    return (text, *pages("", lines[kept:], "", limit))


def _left_after(lines: Sequence[YardLine]) -> list[int]:
    """Count what is left after each number of lines: places, or lines where they have none."""
    places: set[Place] = set()
    counts = [0]
    for line in reversed(lines):
        places.update(line.places)
        counts.append(len(places) or len(counts))
    return counts[::-1]


def _more(left: int, tail: str) -> str:
    words = f"{left} more: type more"
    return f"{words}\n{tail}" if tail else words
