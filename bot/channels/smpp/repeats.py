"""Telling a message that the centre delivers again from the same words said again."""

import hashlib
from collections import OrderedDict
from dataclasses import dataclass
from datetime import datetime, timedelta

AGAIN_WITHIN = timedelta(minutes=2)
"""A centre that missed our answer delivers again within a minute or so (from memory)."""

PROMPT = timedelta(seconds=5)
"""An answer within this reached the centre, if the line held (common practice, no source)."""


@dataclass
class _Given:
    own: str
    at: datetime
    line: int
    answered_at: datetime | None = None

    def may_come_again(self, line: int) -> bool:
        """Say whether the centre may have missed our answer."""
        if self.answered_at is None or line != self.line:
            return True
        return self.answered_at - self.at > PROMPT


class Repeats:
    """Gives messages ids, since the protocol gives them none.

    The same words of the same sender within two minutes are one message where the centre may have
    missed our answer: none was given yet, it took long, or the line broke since. Over a line that
    held they were said twice, as "more" and "more".
    """

    def __init__(self) -> None:
        self._given: OrderedDict[str, _Given] = OrderedDict()
        self._count = 0

    def id_of(self, sender: str, octets: bytes, line: int, now: datetime) -> str:
        """Name a message that came over a line; lines are numbered as they were opened."""
        while self._given and now - next(iter(self._given.values())).at > AGAIN_WITHIN:
            self._given.popitem(last=False)
        words = hashlib.sha256(sender.encode() + b"\0" + octets).hexdigest()[:32]
        before = self._given.get(words)
        if before is not None and before.may_come_again(line):
            return before.own
        self._count += 1
        own = f"smpp:{words}:{int(now.timestamp())}:{self._count}"
        self._given[words] = _Given(own, now, line)
        self._given.move_to_end(words)
        return own

    def answered(self, own: str, now: datetime) -> None:
        """Write down that the centre is answered well now."""
        given = next((each for each in self._given.values() if each.own == own), None)
        if given is not None and given.answered_at is None:
            given.answered_at = now
