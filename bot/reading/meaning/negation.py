"""Negations take effect, so that none is lost; contradictions between findings are asked about."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from itertools import combinations

from bot.reading.clauses.clause import has_role
from bot.reading.lexicon.sense import Hint, Role, Sense
from bot.reading.meaning.partial_finding import Told
from bot.reading.result import Finding, Question, QuestionKind
from bot.reading.scan.elements import Atom, Puzzle, Said
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place

DENIED: dict[EntryKind, EntryKind] = {
    kind: facts.opposite for kind, facts in ENTRY_FACTS.items() if facts.opposite is not None
}
"""A finding and what its denial says. Kinds not named here cannot be denied in one entry."""

DENIED_HINT: dict[Hint, EntryKind | Hint] = {
    Hint.OUT: Hint.NOT_OUT,
    Hint.VIRGIN: EntryKind.QUEEN_NOT_SEEN,
    Hint.QUEEN: EntryKind.QUEEN_NOT_SEEN,
}

EXCLUDING = frozenset(
    frozenset({kind, other}) for kind, facts in ENTRY_FACTS.items() for other in facts.contradicts
)
"""Pairs that contradict each other at one unit on one day."""


_LONGEST_BARE = len("not")
"""A bare "no" or "not" answers what was last said; "did not see" lacks its object."""


def with_negations(atoms: Sequence[Atom]) -> list[Atom]:
    """Give the atoms with every negation applied to what it denies, or turned into a puzzle."""
    found: list[Atom] = []
    at = 0
    while at < len(atoms):
        if has_role(atoms[at], Role.NEGATION, Role.NOT_SEEN):
            at = _deny(atoms, at, found)
        elif has_role(atoms[at], Role.OR):
            found.append(_puzzle(atoms[at]))
            at += 1
        else:
            found.append(atoms[at])
            at += 1
    return found


def _deny(atoms: Sequence[Atom], at: int, found: list[Atom]) -> int:
    """Apply the negation at ``at``; give the index after what it took."""
    after = at + 1
    if after >= len(atoms) or not _deniable(atoms[after]):
        return _dangling(atoms, at, found)
    if _runs_on(atoms, after):
        found.append(_puzzle(atoms[at]))
        return after + 1
    found.append(_opposite(atoms[after]))
    after += 1
    while after + 1 < len(atoms) and has_role(atoms[after], Role.OR):
        found.append(_opposite(atoms[after + 1]))
        after += 2
    return after


def _runs_on(atoms: Sequence[Atom], at: int) -> bool:
    """Say whether what is denied may be the phrase after it: "never saw a virgin hatched"."""
    if at + 1 >= len(atoms) or not _deniable(atoms[at + 1]):
        return False
    return _of_queen(atoms[at])


def _of_queen(atom: Atom) -> bool:
    sense = atom.sense if isinstance(atom, Said) else Sense()
    seen = sense.kind in (EntryKind.QUEEN_SEEN, EntryKind.VIRGIN_SEEN)
    return seen or sense.hint in (Hint.QUEEN, Hint.VIRGIN)


def _deniable(atom: Atom) -> bool:
    return isinstance(atom, Said) and atom.sense.role is None


def _dangling(atoms: Sequence[Atom], at: int, found: list[Atom]) -> int:
    """Deny what came before ("queen not seen"), or stand for "none" when nothing else is said."""
    if has_role(atoms[at], Role.NOT_SEEN) and found and _deniable(found[-1]):
        found.append(_opposite(found.pop()))
    elif len(atoms) == 1 and atoms[at].end - atoms[at].start <= _LONGEST_BARE:
        found.append(Said(atoms[at].start, atoms[at].end, Sense(hint=Hint.NO)))
    else:
        found.append(_puzzle(atoms[at]))
    return at + 1


def _opposite(atom: Atom) -> Atom:
    if not isinstance(atom, Said):
        return _puzzle(atom)
    kind, hint = atom.sense.kind, atom.sense.hint
    if kind in DENIED and kind is not None:
        return replace(atom, sense=Sense(kind=DENIED[kind]))
    if hint in DENIED_HINT and hint is not None:
        other = DENIED_HINT[hint]
        sense = Sense(kind=other) if isinstance(other, EntryKind) else Sense(hint=other)
        return replace(atom, sense=sense)
    return _puzzle(atom)


def _puzzle(atom: Atom) -> Puzzle:
    return Puzzle(atom.start, atom.end, QuestionKind.NOT_UNDERSTOOD)


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


def _told(finding: Finding) -> Told:
    return Told(finding.kind, finding.value, finding.note)


def _contradict(first: Told, second: Told) -> bool:
    """Say whether two findings at one unit on one day cannot both be."""
    kinds = frozenset({first.kind, second.kind})
    if len(kinds) == 2:
        return kinds in EXCLUDING
    differs = first.value != second.value and None not in (first.value, second.value)
    return differs and first.kind is not EntryKind.NOTE
