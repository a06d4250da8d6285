"""The pieces a text is made of once its words are known."""

from dataclasses import dataclass
from enum import IntEnum

from bot.reading.lexicon.sense import Sense
from bot.reading.result import QuestionKind
from bot.reading.scan.unit_references import UnitReference
from bot.reading.tokens.amounts import Amount
from bot.reading.tokens.spoken_day import SpokenDay
from scheduling.values import Graft


@dataclass(frozen=True)
class Atom:
    """A piece of the text between two places of the plain text."""

    start: int
    end: int


@dataclass(frozen=True)
class Units(Atom):
    """Named units; ``into`` when something was put "in" or "to" them."""

    references: tuple[UnitReference, ...]
    into: bool = False


@dataclass(frozen=True)
class Everything(Atom):
    """All units that the sentence can mean."""


@dataclass(frozen=True)
class Said(Atom):
    """A phrase of the lexicon that bears on a finding."""

    sense: Sense


@dataclass(frozen=True)
class Much(Atom):
    """A number with its measure."""

    amount: Amount


@dataclass(frozen=True)
class When(Atom):
    """The day something happened."""

    spoken: SpokenDay


@dataclass(frozen=True)
class Till(Atom):
    """The day something is put off to."""

    spoken: SpokenDay


@dataclass(frozen=True)
class GraftedOn(Atom):
    """The day the cells just named were grafted."""

    spoken: SpokenDay


@dataclass(frozen=True)
class Batch(Atom):
    """A batch grafted, told in one phrase."""

    graft: Graft
    spoken: SpokenDay | None
    clear: bool = True
    """False when a number in the phrase cannot be."""


@dataclass(frozen=True)
class AtYard(Atom):
    """A yard, by its name."""

    name: str


class Strength(IntEnum):
    """How strongly a break parts what stands on its two sides."""

    AND = 1
    COMMA = 2
    STOP = 3
    """The end of a sentence or line, or "but"."""


@dataclass(frozen=True)
class Break(Atom):
    """A comma, an "and", or the end of a sentence or line."""

    strength: Strength


@dataclass(frozen=True)
class FreeWords(Atom):
    """A note in the person's own words."""

    text: str


@dataclass(frozen=True)
class Whither(Atom):
    """Where a queen or a unit went, in the person's own words."""

    text: str


@dataclass(frozen=True)
class Puzzle(Atom):
    """Words that cannot be recorded, and what to ask about them."""

    kind: QuestionKind
    options: tuple[str, ...] = ()
