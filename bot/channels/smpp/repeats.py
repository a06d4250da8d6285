"""Telling a message that the centre delivers again from the same words said again."""

import hashlib
from collections import OrderedDict
from datetime import datetime, timedelta

AGAIN_WITHIN = timedelta(minutes=2)
"""A centre that missed our answer delivers again within a minute or so (from memory)."""


class Repeats:
    """Gives messages ids, since the protocol gives them none."""

    def __init__(self) -> None:
        self._given: OrderedDict[str, tuple[datetime, str]] = OrderedDict()

    def id_of(self, sender: str, octets: bytes, now: datetime) -> str:
        """Name a message: the same words of the same sender within two minutes are one."""
        while self._given and now - next(iter(self._given.values()))[0] > AGAIN_WITHIN:
            self._given.popitem(last=False)
        words = hashlib.sha256(sender.encode() + b"\0" + octets).hexdigest()[:32]
        if words not in self._given:
            self._given[words] = (now, f"smpp:{words}:{int(now.timestamp())}")
        return self._given[words][1]
