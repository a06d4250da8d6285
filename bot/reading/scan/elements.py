"""The elements a text is made of, and the cursor that collects them token by token."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum

from bot.reading.lexicon.sense import Sense
from bot.reading.result import QuestionKind
from bot.reading.scan.unit_references import UnitReference, unit_references_at
from bot.reading.tokens.amounts import Amount
from bot.reading.tokens.spoken_day import SpokenDay
from bot.reading.tokens.token import Token, TokenForm
from scheduling.entry_kinds import EntryKind
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


Found = tuple[Atom | None, int]
"""An atom, or None for words that may be dropped, and the index of the word after it."""

SOFT = frozenset({",", "&", "+"})
HARD = frozenset({";", ".", "\n", "!"})
_MOVES = frozenset(
    [
        "took",
        "taken",
        "take",
        "caught",
        "moved",
        "pulled",
        "sold",
        "banked",
        "used",
        "combined",
        "merged",
        "united",
        "joined",
        "join",
        "removed",
        "harvested",
        "combine",
        "collected",
        "went",
        "newspapered",
        "requeened",
    ]
)
"""With these words in a text, "to" names where something went rather than a run of units."""


class Cursor:
    """The words of a text and the atoms found up to the present word.

    ``divided`` are the boxes that have compartments, ``boxes`` all that stand in the yards; both
    are None when that is not known.
    """

    def __init__(
        self,
        text: str,
        words: list[Token],
        yards: Sequence[str],
        divided: frozenset[int] | None = None,
        boxes: frozenset[int] | None = None,
    ) -> None:
        self.text = text
        self.words = words
        self.yards = [(name, tuple(name.lower().split())) for name in yards]
        self.divided = divided
        self.boxes = boxes
        self.atoms: list[Atom] = []
        self.moves = any(word.text in _MOVES for word in words)

    def text_at(self, at: int) -> str:
        """Give the word at ``at``, or nothing beyond either end."""
        return self.words[at].text if 0 <= at < len(self.words) else ""

    def span(self, at: int, after: int) -> tuple[int, int]:
        """Give where the words from ``at`` up to ``after`` stand in the text."""
        return self.words[at].start, self.words[after - 1].end

    def sentence_end(self, at: int) -> int:
        """Give the index of the mark that ends the sentence at ``at``, or of the text's end."""
        ends = (i for i in range(at, len(self.words)) if self.words[i].text in HARD)
        return next(ends, len(self.words))

    def glued(self, at: int) -> bool:
        """Say whether a unit written as one word stands at ``at``."""
        return at < len(self.words) and self.words[at].form is TokenForm.GLUED

    def last_kind(self) -> EntryKind | None:
        """Give the kind of the finding said last."""
        said = [atom for atom in self.atoms if isinstance(atom, Said) and atom.sense.kind]
        return said[-1].sense.kind if said else None

    def lettered(self, at: int) -> bool:
        """Say whether compartments are named at ``at``."""
        found = (
            unit_references_at(self.words, at, to_is_run=False) if at < len(self.words) else None
        )
        return found is not None and all(reference.letter for reference in found[0])

    def units_at(self, at: int) -> bool:
        """Say whether units are named at ``at``."""
        return (
            at < len(self.words) and unit_references_at(self.words, at, to_is_run=False) is not None
        )

    def whole_box(self, named: Units) -> bool:
        """Say whether a divided box was named without its compartment."""
        reference = named.references[-1]
        bare = not reference.letter and not reference.position
        return bare and (self.divided is None or reference.box in self.divided)
