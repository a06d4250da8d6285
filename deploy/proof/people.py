"""What two people say in a season, and what must come of it."""

from collections import Counter
from dataclasses import dataclass, field
from datetime import date
from random import Random

from bot.reading.reader import read
from bot.reading.situation import Situation, YardUnits
from deploy.standins.bot_api_queue import Pushed
from deploy.standins.bot_api_standin import BotApiStandin
from scheduling.places import UnitName

YARD = "River"
UNITS = tuple(UnitName(box, letter) for box in (1, 2) for letter in "ab")
ADA, MILO = 11, 12
NAMES = {ADA: "Ada", MILO: "Milo"}

Entries = tuple[tuple[str, str], ...]
"""Unit and kind of each entry that comes of a text."""

_FINDINGS = (
    ("eggs", "eggs"),
    ("no eggs", "no_eggs"),
    ("good brood", "sealed_brood"),
    ("virgin", "virgin_seen"),
    ("fed 1 quart", "fed"),
    ("trap done", "trap_serviced"),
    ("note calm", "note"),
)
_NO_FINDINGS = ("due", "tomorrow", "queens", "failing", "1a", "hello", "9z eggs", "xq kvw", "more")


def said_at_random(random: Random) -> tuple[str, Entries]:
    """A reply, and the entries that must come of it."""
    drawn = random.random()
    if drawn < 0.2:
        return random.choice(_NO_FINDINGS), ()
    units = random.sample(UNITS, random.randint(1, 3) if drawn > 0.6 else 1)
    told = [(unit, *random.choice(_FINDINGS)) for unit in units]
    text = ", ".join(f"{unit} {words}" for unit, words, _ in told)
    return text, tuple((str(unit), kind) for unit, _, kind in told)


def said_by_button(text: str, on: date) -> Entries:
    """The entries that must come of a button's text."""
    reading = read(text, Situation(on, (YardUnits(YARD, UNITS),)))
    return tuple((str(found.place.unit), str(found.kind)) for found in reading.findings)


@dataclass
class Talker:
    """A person who writes and taps; remembers what must be in the log for it.

    Attributes:
        expected: the entries that each message must leave, by its key.
        pushed: the update of each message, by its key.
        spent: the keys of buttons that would count anew.
    """

    api: BotApiStandin
    chat: int
    random: Random
    expected: dict[str, Entries] = field(default_factory=dict)
    pushed: dict[str, Pushed] = field(default_factory=dict)
    spent: set[str] = field(default_factory=set)
    _standing: list[tuple[str, Entries]] = field(default_factory=list)

    def write(self, text: str | None = None) -> None:
        """Write a reply, or take one back."""
        if text is None and self._standing and self.random.random() < 0.08:
            self._push("undo", self._struck())
            return
        said, entries = said_at_random(self.random) if text is None else (text, ())
        key = self._push(said, entries)
        if entries:
            self._standing.append((key, entries))

    def tap(self, message_id: int, data: str, on: date) -> None:
        """Tap a button, sometimes twice, unless that would count anew.

        It does after what it recorded was taken back, and a while after it took something back.
        """
        key = f"tap:{self.chat}:{message_id}:{data}"
        if key in self.spent:
            return
        if data == "undo":
            self.spent.add(key)
        for _ in range(2 if data != "undo" and self.random.random() < 0.5 else 1):
            known = key in self.expected
            pushed = self.api.push_tap(self.chat, message_id, data, NAMES[self.chat])
            if not known:
                self.pushed[key] = pushed
                self._tapped(key, data, on)

    @property
    def counted(self) -> dict[str, Counter[tuple[str, str]]]:
        """Every message that the carrier counts as delivered, with the entries it must have."""
        waiting = set(self.api.unconfirmed)
        return {
            key: Counter(entries)
            for key, entries in self.expected.items()
            if self.pushed[key].update_id not in waiting
        }

    def _tapped(self, key: str, data: str, on: date) -> None:
        undo = data == "undo"
        self.expected[key] = self._struck() if undo else said_by_button(data, on)
        if self.expected[key] and not undo:
            self._standing.append((key, self.expected[key]))

    def _struck(self) -> Entries:
        """The strikes that an undo must leave now."""
        key, struck = self._standing.pop() if self._standing else ("", ())
        self.spent.add(key)
        return tuple((unit, "strike") for unit, _ in struck)

    def _push(self, text: str, entries: Entries) -> str:
        pushed = self.api.push_text(self.chat, text, NAMES[self.chat])
        key = f"{self.chat}:{pushed.message_id}"
        self.pushed[key], self.expected[key] = pushed, entries
        return key
