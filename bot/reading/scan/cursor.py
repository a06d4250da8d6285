"""A text being read: its words, and the atoms found so far."""

from collections.abc import Sequence

from bot.reading.atoms import Atom, Said, Units
from bot.reading.scan.unit_references import unit_references_at
from bot.reading.tokens.token import Token, TokenForm
from scheduling.entry_kinds import EntryKind

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
