"""The elements a text is made of, and the cursor that collects them token by token."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum

from bot.reading.lexicon.sense import Sense
from bot.reading.result import QuestionKind
from bot.reading.scan.unit_references import UnitReference, unit_references_at
from bot.reading.tokens.amounts import Amount
from bot.reading.tokens.dates import SpokenDay
from bot.reading.tokens.token import Token, TokenForm, text_at
from bot.reading.tokens.yard_names import spoken_names
from scheduling.entry_kinds import EntryKind
from scheduling.values import Graft


@dataclass(frozen=True)
class Element:
    """One element of a text, between two places of the normalised text."""

    start: int
    end: int


@dataclass(frozen=True)
class NamedUnits(Element):
    """Named units; ``into`` when something was put "in" or "to" them."""

    references: tuple[UnitReference, ...]
    into: bool = False


@dataclass(frozen=True)
class AllUnits(Element):
    """All units that the sentence can mean."""


@dataclass(frozen=True)
class Phrase(Element):
    """A phrase of the lexicon that bears on a finding."""

    sense: Sense


@dataclass(frozen=True)
class Quantity(Element):
    """A number with its measure."""

    amount: Amount


@dataclass(frozen=True)
class OnDay(Element):
    """The day something happened."""

    spoken: SpokenDay


@dataclass(frozen=True)
class Until(Element):
    """The day something is put off to."""

    spoken: SpokenDay


@dataclass(frozen=True)
class GraftedOn(Element):
    """The day the cells just named were grafted."""

    spoken: SpokenDay


@dataclass(frozen=True)
class GraftedBatch(Element):
    """A batch grafted, told in one phrase."""

    graft: Graft
    spoken: SpokenDay | None
    clear: bool = True
    """False when a number in the phrase cannot be."""


@dataclass(frozen=True)
class AtYard(Element):
    """A yard, by its name."""

    name: str


class BreakStrength(IntEnum):
    """How strongly a break parts what stands on its two sides."""

    AND = 1
    COMMA = 2
    STOP = 3
    """The end of a sentence or line, or "but"."""


@dataclass(frozen=True)
class Break(Element):
    """A comma, an "and", or the end of a sentence or line."""

    strength: BreakStrength


@dataclass(frozen=True)
class FreeText(Element):
    """A note in the person's own words."""

    text: str


@dataclass(frozen=True)
class Destination(Element):
    """Where a queen or a unit went, in the person's own words."""

    text: str


@dataclass(frozen=True)
class UnclearPart(Element):
    """Words that are ambiguous or not understood, and what to ask about them."""

    kind: QuestionKind
    options: tuple[str, ...] = ()


Found = tuple[Element | None, int]
"""An element, or None for words that may be dropped, and the index of the token after it."""

SOFT = frozenset({",", "&", "+"})
HARD = frozenset({";", ".", "\n", "!"})
_MOVES = frozenset(
    [
        "took", "taken", "take", "caught", "moved", "pulled", "sold", "banked", "used", "combined",
        "merged", "united", "joined", "join", "removed", "harvested", "combine", "collected",
        "went", "newspapered", "requeened",
    ]
)  # fmt: skip
"""With these words in a text, "to" names where something went rather than a run of units."""


class Cursor:
    """A parser's cursor: the tokens of a text and the elements found up to the present one.

    ``divided`` are the boxes that have compartments, ``boxes`` all that stand in the yards; both
    are None when that is not known.
    """

    def __init__(
        self,
        text: str,
        tokens: list[Token],
        yards: Sequence[str],
        divided: frozenset[int] | None = None,
        boxes: frozenset[int] | None = None,
        current_yard: str | None = None,
    ) -> None:
        self.text = text
        self.tokens = tokens
        self.yards = spoken_names(yards, current_yard)
        self.divided = divided
        self.boxes = boxes
        self.elements: list[Element] = []
        self.moves = any(token.text in _MOVES for token in tokens)

    def text_at(self, at: int) -> str:
        """Give the text of the token at ``at``, or nothing beyond either end."""
        return text_at(self.tokens, at)

    def span(self, at: int, after: int) -> tuple[int, int]:
        """Give where the tokens from ``at`` up to ``after`` stand in the text."""
        return self.tokens[at].start, self.tokens[after - 1].end

    def sentence_end(self, at: int) -> int:
        """Give the index of the mark that ends the sentence at ``at``, or of the text's end."""
        ends = (i for i in range(at, len(self.tokens)) if self.tokens[i].text in HARD)
        return next(ends, len(self.tokens))

    def glued(self, at: int) -> bool:
        """Say whether a unit written as one word stands at ``at``."""
        return at < len(self.tokens) and self.tokens[at].form is TokenForm.GLUED

    def last_kind(self) -> EntryKind | None:
        """Give the kind of the finding said last."""
        said = [
            element
            for element in self.elements
            if isinstance(element, Phrase) and element.sense.kind
        ]
        return said[-1].sense.kind if said else None

    def lettered(self, at: int) -> bool:
        """Say whether compartments are named at ``at``."""
        named = self._references_at(at)
        return bool(named) and all(reference.letter for reference in named)

    def units_at(self, at: int) -> bool:
        """Say whether units are named at ``at``."""
        return bool(self._references_at(at))

    def _references_at(self, at: int) -> tuple[UnitReference, ...]:
        if at >= len(self.tokens):
            return ()
        found = unit_references_at(self.tokens, at, to_is_run=False)
        return found[0] if found else ()

    def whole_box(self, named: NamedUnits) -> bool:
        """Say whether a divided box was named without its compartment."""
        reference = named.references[-1]
        bare = not reference.letter and not reference.position
        return bare and (self.divided is None or reference.box in self.divided)
