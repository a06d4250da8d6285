"""Ambiguous words that the unit's open checks decide ("out", "dead"), and subjects of others."""

from bot.reading.lexicon.sense import Hint, Sense
from bot.reading.meaning.negation import DENIED
from bot.reading.meaning.partial_finding import Around, Told, Unclear, Words
from bot.reading.result import QuestionKind
from scheduling.check_kinds import CheckKind
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind, Noun

_TOGETHER: dict[tuple[Hint, Hint], EntryKind] = {
    (Hint.QUEEN, Hint.DEAD): EntryKind.QUEEN_DEAD,
    (Hint.VIRGIN, Hint.DEAD): EntryKind.QUEEN_DEAD,
    (Hint.CELL, Hint.DEAD): EntryKind.CELL_FAILED,
    (Hint.BEES, Hint.DEAD): EntryKind.DEAD,
    (Hint.CELL, Hint.OUT): EntryKind.EMERGED,
    (Hint.CELL, Hint.NOT_OUT): EntryKind.NOT_EMERGED,
    (Hint.CELL, Hint.SEALED): EntryKind.NOT_EMERGED,
    (Hint.QUEEN, Hint.TAKE): EntryKind.QUEEN_TAKEN,
    (Hint.BROOD, Hint.SEALED): EntryKind.SEALED_BROOD,
}
"""A subject and what is said of it, and the finding that the two make."""

_NOUNS = {Hint.CELL: Noun.CELL, Hint.QUEEN: Noun.QUEEN, Hint.BEES: Noun.BEES}


def with_subjects(words: Words) -> None:
    """Join subjects with what is said of them, in place."""
    for (subject, said), kind in _TOGETHER.items():
        pair = [Sense(hint=subject), Sense(hint=said)]
        if all(sense in words.senses for sense in pair):
            words.senses = [sense for sense in words.senses if sense not in pair]
            words.senses.append(Sense(kind=kind))


def without_said_subjects(words: Words) -> None:
    """Drop subjects that a finding already names, in place."""
    said = Noun.NONE
    for sense in words.senses:
        if sense.kind is not None:
            said |= ENTRY_FACTS[sense.kind].nouns
    words.senses = [sense for sense in words.senses if not _is_said(sense, said)]


def _is_said(sense: Sense, said: Noun) -> bool:
    return sense.hint in _NOUNS and _NOUNS[sense.hint] in said


_EMERGENCE = CheckKind.EMERGENCE
_RELEASE = CheckKind.RELEASE

_BY_CHECK: dict[Hint, dict[CheckKind, EntryKind]] = {
    Hint.OUT: {_EMERGENCE: EntryKind.EMERGED, _RELEASE: EntryKind.RELEASED},
    Hint.NOT_OUT: {_EMERGENCE: EntryKind.NOT_EMERGED, _RELEASE: EntryKind.STILL_CAGED},
}
_UNKNOWN_YARD: dict[Hint, EntryKind] = {
    Hint.OUT: EntryKind.EMERGED,
    Hint.NOT_OUT: EntryKind.NOT_EMERGED,
}
"""The plain trade meaning, when there are no yards that could say otherwise."""

_READINGS: dict[Hint, tuple[str, ...]] = {
    Hint.OUT: ("emerged", "released"),
    Hint.NOT_OUT: ("still sealed", "still caged"),
    Hint.SEALED: ("still sealed", "sealed brood"),
    Hint.NONE: ("no eggs", "no queen"),
    Hint.NO: ("no eggs", "no queen"),
    Hint.NOT_YET: ("no eggs", "still sealed"),
}


def settled(sense: Sense, around: Around) -> Sense:
    """Give the finding that a hint stands for at this unit; other senses stay as they are.

    Raises:
        Unclear: the unit's checks allow several readings, or none.

    """
    if sense.hint in (Hint.OUT, Hint.NOT_OUT):
        return Sense(kind=_out(sense.hint, around))
    if sense.hint is Hint.DEAD:
        return Sense(kind=_dead(around))
    if sense.hint is Hint.SEALED:
        return Sense(kind=_sealed(around))
    if sense.hint is Hint.NO and not around.before:
        raise _ask(Hint.NONE)
    if sense.hint in (Hint.NONE, Hint.NO, Hint.NOT_YET):
        return Sense(kind=_none(sense.hint, around))
    return sense


def _ask(hint: Hint) -> Unclear:
    return Unclear(QuestionKind.WHICH_MEANING, _READINGS[hint])


def _out(hint: Hint, around: Around) -> EntryKind:
    if around.checks is None:
        return _UNKNOWN_YARD[hint]
    meant = [kind for check, kind in _BY_CHECK[hint].items() if check in around.checks]
    if len(meant) != 1:
        raise _ask(hint)
    return meant[0]


def _dead(around: Around) -> EntryKind:
    checks = around.checks or frozenset()
    if _EMERGENCE in checks:
        raise Unclear(QuestionKind.WHICH_MEANING, ("dead cell", "dead out"))
    if _RELEASE in checks:
        raise Unclear(QuestionKind.WHICH_MEANING, ("queen dead", "dead out"))
    return EntryKind.DEAD


def _sealed(around: Around) -> EntryKind:
    checks = around.checks or frozenset()
    brood = bool(checks & {CheckKind.SEALED_BROOD, CheckKind.TAKE})
    cell = _EMERGENCE in checks
    if cell == brood:
        raise _ask(Hint.SEALED)
    return EntryKind.NOT_EMERGED if cell else EntryKind.SEALED_BROOD


def _none(hint: Hint, around: Around) -> EntryKind:
    """Read "none": the opposite of what was last said, else of what the unit waits for."""
    opposites = {_opposite(told) for told in around.before} - {None}
    if len(opposites) == 1 and len(around.before) == 1:
        return next(kind for kind in opposites if kind is not None)
    checks = around.checks or frozenset()
    early = checks & {_EMERGENCE, _RELEASE}
    if around.before or (early and CheckKind.LAYING in checks):
        raise _ask(hint)
    if hint is Hint.NOT_YET and len(early) == 1:
        return _out(Hint.NOT_OUT, around)
    if early or CheckKind.LAYING not in checks:
        raise _ask(hint)
    return EntryKind.NO_EGGS


def _opposite(told: Told) -> EntryKind | None:
    if told.kind in DENIED.values():
        return told.kind
    return DENIED.get(told.kind)
