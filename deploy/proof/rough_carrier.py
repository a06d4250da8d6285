"""A carrier on a bad day: slow, cut off, flooded, failing and refusing, as a seed has it."""

import time
from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random
from threading import Lock

from deploy.standins.bot_api_faults import (
    Drop,
    Fault,
    dropped,
    flood,
    forbidden,
    gateway_page,
    server_error,
    slow,
)
from deploy.standins.bot_api_standin import Call, Moment
from deploy.standins.bot_api_state import BotApiStandin

_OF_A_SEND: tuple[tuple[float, Callable[[Random], Fault]], ...] = (
    (0.08, lambda random: slow(random.uniform(0.1, 1.2))),
    (0.03, lambda _: dropped(Drop.BEFORE_EFFECT)),
    (0.03, lambda _: dropped(Drop.AFTER_EFFECT)),
    (0.03, lambda random: flood(random.randint(1, 2))),
    (0.02, lambda _: server_error()),
    (0.02, lambda _: gateway_page()),
    (0.01, lambda _: forbidden()),
)
_OF_A_FETCH: tuple[tuple[float, Callable[[Random], Fault]], ...] = (
    (0.02, lambda _: dropped(Drop.BEFORE_EFFECT)),
    (0.02, lambda _: dropped(Drop.AFTER_EFFECT)),
    (0.02, lambda _: server_error()),
    (0.02, lambda random: slow(random.uniform(0.1, 1.0))),
)
_FAULTS = {"sendMessage": _OF_A_SEND, "getUpdates": _OF_A_FETCH}


@dataclass(frozen=True)
class Taken:
    """A message that the carrier took: from which worker, when, and whether it hung up then."""

    caller: str
    chat: int
    text: str
    at: float
    hung_up: bool


@dataclass
class RoughCarrier(BotApiStandin):
    """A Bot API stand-in with faults at random, which remembers every message it took or refused.

    Attributes:
        random: decides on the faults; None for a good day.
        may_refuse: whether a chat may be cut off now.
        taken: every message taken, in order.
        refused: chat and text of every message refused for good.
        faults: how often each fault befell.
    """

    random: Random | None = None
    may_refuse: bool = True
    taken: list[Taken] = field(default_factory=list)
    refused: list[tuple[int, str]] = field(default_factory=list)
    faults: dict[str, int] = field(default_factory=dict)
    _one_draws: Lock = field(default_factory=Lock)

    def __post_init__(self) -> None:
        self.watch = self.remember

    def next_fault(self, method: str) -> Fault:
        """Draw what befalls a call."""
        told = super().next_fault(method)
        if told != Fault() or self.random is None:
            return told
        with self._one_draws:
            drawn = self.random.random()
            for share, fault in _FAULTS.get(method, ()):
                if drawn < share:
                    befalls = fault(self.random)
                    return befalls if befalls.status != 403 or self.may_refuse else Fault()
                drawn -= share
        return Fault()

    def remember(self, call: Call, moment: Moment) -> None:
        """Write down what a send came to."""
        if call.method != "sendMessage":
            return
        chat, text = int(call.form["chat_id"]), call.form["text"]
        if moment is Moment.TAKEN:
            hung_up = call.fault.drop is Drop.AFTER_EFFECT
            self.taken.append(Taken(call.caller, chat, text, time.monotonic(), hung_up))
            return
        name = _name(call.fault)
        self.faults[name] = self.faults.get(name, 0) + 1
        if call.fault.status == 403:
            self.refused.append((chat, text))


def _name(fault: Fault) -> str:
    if fault.drop is not None:
        return f"cut {fault.drop.value} it was taken"
    if fault.delay:
        return "slow"
    return "none" if fault.status == 200 else str(fault.status)
