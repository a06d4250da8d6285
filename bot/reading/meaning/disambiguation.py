"""Ambiguous words that the unit's open checks decide ("out", "dead"), and subjects of others."""

from bot.reading.lexicon.sense import AmbiguousWord, Sense
from bot.reading.meaning.negation import DENIED
from bot.reading.meaning.partial_finding import ClauseContent, PartialFinding, Unclear, UnitContext
from bot.reading.result import QuestionKind
from scheduling.check_kinds import CheckKind
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind, Noun

_TOGETHER: dict[tuple[AmbiguousWord, AmbiguousWord], EntryKind] = {
    (AmbiguousWord.QUEEN, AmbiguousWord.DEAD): EntryKind.QUEEN_DEAD,
    (AmbiguousWord.VIRGIN, AmbiguousWord.DEAD): EntryKind.QUEEN_DEAD,
    (AmbiguousWord.CELL, AmbiguousWord.DEAD): EntryKind.CELL_FAILED,
    (AmbiguousWord.BEES, AmbiguousWord.DEAD): EntryKind.DEAD,
    (AmbiguousWord.CELL, AmbiguousWord.OUT): EntryKind.EMERGED,
    (AmbiguousWord.CELL, AmbiguousWord.NOT_OUT): EntryKind.NOT_EMERGED,
    (AmbiguousWord.CELL, AmbiguousWord.SEALED): EntryKind.NOT_EMERGED,
    (AmbiguousWord.QUEEN, AmbiguousWord.TAKE): EntryKind.QUEEN_TAKEN,
    (AmbiguousWord.BROOD, AmbiguousWord.SEALED): EntryKind.SEALED_BROOD,
}
"""A subject and what is said of it, and the finding that the two make."""

_NOUNS = {
    AmbiguousWord.CELL: Noun.CELL,
    AmbiguousWord.QUEEN: Noun.QUEEN,
    AmbiguousWord.BEES: Noun.BEES,
}


def join_subjects(content: ClauseContent) -> None:
    """Join subjects with what is said of them, in place."""
    for (subject, said), kind in _TOGETHER.items():
        pair = [Sense(ambiguous=subject), Sense(ambiguous=said)]
        if all(sense in content.senses for sense in pair):
            content.senses = [sense for sense in content.senses if sense not in pair]
            content.senses.append(Sense(kind=kind))


def drop_said_subjects(content: ClauseContent) -> None:
    """Drop subjects that a finding already names, in place."""
    said = Noun.NONE
    for sense in content.senses:
        if sense.kind is not None:
            said |= ENTRY_FACTS[sense.kind].nouns
    content.senses = [sense for sense in content.senses if not _is_said(sense, said)]


def _is_said(sense: Sense, said: Noun) -> bool:
    return sense.ambiguous in _NOUNS and _NOUNS[sense.ambiguous] in said


_EMERGENCE = CheckKind.EMERGENCE
_RELEASE = CheckKind.RELEASE

_BY_CHECK: dict[AmbiguousWord, dict[CheckKind, EntryKind]] = {
    AmbiguousWord.OUT: {_EMERGENCE: EntryKind.EMERGED, _RELEASE: EntryKind.RELEASED},
    AmbiguousWord.NOT_OUT: {_EMERGENCE: EntryKind.NOT_EMERGED, _RELEASE: EntryKind.STILL_CAGED},
}
_UNKNOWN_YARD: dict[AmbiguousWord, EntryKind] = {
    AmbiguousWord.OUT: EntryKind.EMERGED,
    AmbiguousWord.NOT_OUT: EntryKind.NOT_EMERGED,
}
"""The plain trade meaning, when there are no yards that could say otherwise."""

_READINGS: dict[AmbiguousWord, tuple[str, ...]] = {
    AmbiguousWord.OUT: ("emerged", "released"),
    AmbiguousWord.NOT_OUT: ("still sealed", "still caged"),
    AmbiguousWord.SEALED: ("still sealed", "sealed brood"),
    AmbiguousWord.NONE: ("no eggs", "no queen"),
    AmbiguousWord.NO: ("no eggs", "no queen"),
    AmbiguousWord.NOT_YET: ("no eggs", "still sealed"),
}


def disambiguated(sense: Sense, context: UnitContext) -> Sense:
    """Give the finding that an ambiguous word stands for here; other senses stay as they are.

    Raises:
        Unclear: the unit's checks allow several readings, or none.
    """
    if sense.ambiguous in (AmbiguousWord.OUT, AmbiguousWord.NOT_OUT):
        return Sense(kind=_out(sense.ambiguous, context))
    if sense.ambiguous is AmbiguousWord.DEAD:
        return Sense(kind=_dead(context))
    if sense.ambiguous is AmbiguousWord.SEALED:
        return Sense(kind=_sealed(context))
    if sense.ambiguous is AmbiguousWord.NO and not context.before:
        raise _ask(AmbiguousWord.NONE)
    if sense.ambiguous in (AmbiguousWord.NONE, AmbiguousWord.NO, AmbiguousWord.NOT_YET):
        return Sense(kind=_none(sense.ambiguous, context))
    return sense


def _ask(ambiguous: AmbiguousWord) -> Unclear:
    return Unclear(QuestionKind.WHICH_MEANING, _READINGS[ambiguous])


def _out(ambiguous: AmbiguousWord, context: UnitContext) -> EntryKind:
    if context.checks is None:
        return _UNKNOWN_YARD[ambiguous]
    meant = [kind for check, kind in _BY_CHECK[ambiguous].items() if check in context.checks]
    if len(meant) != 1:
        raise _ask(ambiguous)
    return meant[0]


def _dead(context: UnitContext) -> EntryKind:
    checks = context.checks or frozenset()
    if _EMERGENCE in checks:
        raise Unclear(QuestionKind.WHICH_MEANING, ("dead cell", "dead out"))
    if _RELEASE in checks:
        raise Unclear(QuestionKind.WHICH_MEANING, ("queen dead", "dead out"))
    return EntryKind.DEAD


def _sealed(context: UnitContext) -> EntryKind:
    checks = context.checks or frozenset()
    brood = bool(checks & {CheckKind.SEALED_BROOD, CheckKind.TAKE})
    cell = _EMERGENCE in checks
    if cell == brood:
        raise _ask(AmbiguousWord.SEALED)
    return EntryKind.NOT_EMERGED if cell else EntryKind.SEALED_BROOD


def _none(ambiguous: AmbiguousWord, context: UnitContext) -> EntryKind:
    """Read "none": the opposite of what was last said, else of what the unit waits for."""
    opposites = {_opposite(told) for told in context.before} - {None}
    if len(opposites) == 1 and len(context.before) == 1:
        return next(kind for kind in opposites if kind is not None)
    checks = context.checks or frozenset()
    early = checks & {_EMERGENCE, _RELEASE}
    if context.before or (early and CheckKind.LAYING in checks):
        raise _ask(ambiguous)
    if ambiguous is AmbiguousWord.NOT_YET and len(early) == 1:
        return _out(AmbiguousWord.NOT_OUT, context)
    if early or CheckKind.LAYING not in checks:
        raise _ask(ambiguous)
    return EntryKind.NO_EGGS


def _opposite(told: PartialFinding) -> EntryKind | None:
    if told.kind in DENIED.values():
        return told.kind
    return DENIED.get(told.kind)
