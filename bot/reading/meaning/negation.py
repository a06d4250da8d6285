"""Negations take effect, so that none is lost; contradictions between findings are asked about."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from itertools import combinations

from bot.reading.clauses.clause import has_role
from bot.reading.lexicon.sense import AmbiguousWord, PhraseRole, Sense
from bot.reading.meaning.finding_values import PartialFinding
from bot.reading.result import Finding, Question, QuestionKind
from bot.reading.scan.elements import Element, Phrase, UnclearPart
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place

DENIED: dict[EntryKind, EntryKind] = {
    kind: facts.opposite for kind, facts in ENTRY_FACTS.items() if facts.opposite is not None
}
"""A finding and what its denial says. Kinds not named here cannot be denied in one entry."""

_DENIED_WORD: dict[AmbiguousWord, EntryKind | AmbiguousWord] = {
    AmbiguousWord.OUT: AmbiguousWord.NOT_OUT,
    AmbiguousWord.VIRGIN: EntryKind.QUEEN_NOT_SEEN,
    AmbiguousWord.QUEEN: EntryKind.QUEEN_NOT_SEEN,
}

_EXCLUDING = frozenset(
    frozenset({kind, other}) for kind, facts in ENTRY_FACTS.items() for other in facts.contradicts
)
"""Pairs that contradict each other at one unit on one day."""


_LONGEST_BARE = len("not")
"""A bare "no" or "not" answers what was last said; "did not see" lacks its object."""


def with_negations(elements: Sequence[Element]) -> list[Element]:
    """Apply every negation to what it denies, or turn it into an unclear part."""
    found: list[Element] = []
    at = 0
    while at < len(elements):
        if has_role(elements[at], PhraseRole.NEGATION, PhraseRole.NOT_SEEN):
            at = _deny(elements, at, found)
        elif has_role(elements[at], PhraseRole.OR):
            found.append(_unclear_part(elements[at]))
            at += 1
        else:
            found.append(elements[at])
            at += 1
    return found


def _deny(elements: Sequence[Element], at: int, found: list[Element]) -> int:
    """Apply the negation at ``at``; give the index after what it took."""
    after = at + 1
    if after >= len(elements) or not _deniable(elements[after]):
        return _dangling(elements, at, found)
    if _runs_on(elements, after):
        found.append(_unclear_part(elements[at]))
        return after + 1
    found.append(_opposite(elements[after]))
    after += 1
    while after + 1 < len(elements) and has_role(elements[after], PhraseRole.OR):
        found.append(_opposite(elements[after + 1]))
        after += 2
    return after


def _runs_on(elements: Sequence[Element], at: int) -> bool:
    """Say whether what is denied may be the phrase after it: "never saw a virgin hatched"."""
    if at + 1 >= len(elements) or not _deniable(elements[at + 1]):
        return False
    return _of_queen(elements[at])


def _of_queen(element: Element) -> bool:
    sense = element.sense if isinstance(element, Phrase) else Sense()
    seen = sense.kind in (EntryKind.QUEEN_SEEN, EntryKind.VIRGIN_SEEN)
    return seen or sense.ambiguous in (AmbiguousWord.QUEEN, AmbiguousWord.VIRGIN)


def _deniable(element: Element) -> bool:
    return isinstance(element, Phrase) and element.sense.role is None


def _dangling(elements: Sequence[Element], at: int, found: list[Element]) -> int:
    """Deny what came before ("queen not seen"), or stand for "none" when nothing else is said."""
    if has_role(elements[at], PhraseRole.NOT_SEEN) and found and _deniable(found[-1]):
        found.append(_opposite(found.pop()))
    elif len(elements) == 1 and elements[at].end - elements[at].start <= _LONGEST_BARE:
        found.append(
            Phrase(elements[at].start, elements[at].end, Sense(ambiguous=AmbiguousWord.NO))
        )
    else:
        found.append(_unclear_part(elements[at]))
    return at + 1


def _opposite(element: Element) -> Element:
    if not isinstance(element, Phrase):
        return _unclear_part(element)
    kind, ambiguous = element.sense.kind, element.sense.ambiguous
    if kind in DENIED and kind is not None:
        return replace(element, sense=Sense(kind=DENIED[kind]))
    if ambiguous in _DENIED_WORD and ambiguous is not None:
        other = _DENIED_WORD[ambiguous]
        sense = Sense(kind=other) if isinstance(other, EntryKind) else Sense(ambiguous=other)
        return replace(element, sense=sense)
    return _unclear_part(element)


def _unclear_part(element: Element) -> UnclearPart:
    return UnclearPart(element.start, element.end, QuestionKind.NOT_UNDERSTOOD)


def without_contradictions(
    findings: Sequence[Finding], text: str
) -> tuple[list[Finding], list[Question]]:
    """Take out all findings of a unit that is said to be two things at once, and ask."""
    clashing = _clashing(findings)
    kept = [finding for finding in dict.fromkeys(findings) if finding.place not in clashing]
    questions = [
        Question(QuestionKind.CONTRADICTION, text, (str(place.unit),), tuple(options))
        for place, options in clashing.items()
    ]
    return kept, questions


def _clashing(findings: Iterable[Finding]) -> dict[Place, list[str]]:
    together: dict[tuple[Place, date], list[Finding]] = {}
    for finding in findings:
        if finding.place.unit is not None:
            together.setdefault((finding.place, finding.on), []).append(finding)
    found: dict[Place, list[str]] = {}
    for (place, _), said in together.items():
        for one, other in combinations(said, 2):
            if _contradict(_told(one), _told(other)):
                words = [str(kind).replace("_", " ") for kind in (one.kind, other.kind)]
                found.setdefault(place, words)
    return found


def _told(finding: Finding) -> PartialFinding:
    return PartialFinding(finding.kind, finding.value, finding.note)


def _contradict(first: PartialFinding, second: PartialFinding) -> bool:
    """Say whether two findings at one unit on one day cannot both be."""
    kinds = frozenset({first.kind, second.kind})
    if len(kinds) == 2:
        return kinds in _EXCLUDING
    differs = first.value != second.value and None not in (first.value, second.value)
    return differs and first.kind is not EntryKind.NOTE
