"""Ambiguous words, decided by the unit's open checks ("out") or by their neighbours ("virgin")."""

from bot.reading.lexicon.measures import Measure
from bot.reading.lexicon.sense import AmbiguousWord, Sense
from bot.reading.meaning.finding_values import ClauseContent, PartialFinding, Unclear, UnitContext
from bot.reading.meaning.negation import DENIED
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


def disambiguate(content: ClauseContent, context: UnitContext) -> None:
    """Turn ambiguous words into findings, in place.

    Raises:
        Unclear: the unit's checks or the words beside allow several readings, or none.
    """
    _join_subjects(content)
    content.senses = [_by_checks(sense, context) for sense in content.senses]
    _drop_said_subjects(content)
    _disambiguate_nouns(content, context)


def _join_subjects(content: ClauseContent) -> None:
    for (subject, said), kind in _TOGETHER.items():
        pair = [Sense(ambiguous=subject), Sense(ambiguous=said)]
        if all(sense in content.senses for sense in pair):
            content.senses = [sense for sense in content.senses if sense not in pair]
            content.senses.append(Sense(kind=kind))


def _drop_said_subjects(content: ClauseContent) -> None:
    """Drop subjects that a finding already names."""
    said = Noun.NONE
    for sense in content.senses:
        if sense.kind is not None:
            said |= ENTRY_FACTS[sense.kind].nouns
    named = {word for word, noun in _NOUNS.items() if noun in said}
    content.senses = [sense for sense in content.senses if sense.ambiguous not in named]


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
    AmbiguousWord.VIRGIN: ("virgin seen", "virgin placed"),
    AmbiguousWord.CELL: ("new cell", "own cells"),
    AmbiguousWord.TRAP: ("trap set", "trap emptied"),
    AmbiguousWord.BROOD: ("sealed brood", "brood added"),
    AmbiguousWord.BEES: ("bees added", "made up"),
    AmbiguousWord.FOOD: ("1/2 frame food", "no food"),
    AmbiguousWord.HONEY: ("1/2 frame food", "fed 1 frame honey"),
    AmbiguousWord.GIVEN: ("gave brood", "gave bees"),
    AmbiguousWord.TAKE: ("queen taken", "gone"),
}
"""What to ask with, by the word that could mean either."""


def _by_checks(sense: Sense, context: UnitContext) -> Sense:
    """Give the finding that a word stands for at these checks; other senses stay as they are."""
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
    if not meant and context.newest in _BY_CHECK[ambiguous].values():
        raise Unclear(QuestionKind.NOTED_ALREADY)
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


_GIVEN: dict[AmbiguousWord, EntryKind] = {
    AmbiguousWord.VIRGIN: EntryKind.VIRGIN_PLACED,
    AmbiguousWord.CELL: EntryKind.CELL_PLACED,
    AmbiguousWord.TRAP: EntryKind.TRAP_SET,
    AmbiguousWord.BROOD: EntryKind.BROOD_ADDED,
    AmbiguousWord.BEES: EntryKind.BEES_ADDED,
    AmbiguousWord.FONDANT: EntryKind.FED,
}
_ALWAYS: dict[AmbiguousWord, EntryKind] = {
    AmbiguousWord.QUEEN: EntryKind.QUEEN_SEEN,
    AmbiguousWord.FONDANT: EntryKind.FED,
}


def _disambiguate_nouns(content: ClauseContent, context: UnitContext) -> None:
    """Turn nouns and the verb of giving into findings by what stands beside them."""
    given = Sense(ambiguous=AmbiguousWord.GIVEN) in content.senses
    fondant = Sense(ambiguous=AmbiguousWord.FONDANT) in content.senses
    if _has(content, Measure.KILOGRAMS) and not fondant:
        raise Unclear(QuestionKind.BAD_NUMBER, ("2 lb fondant",))
    used = False
    for at, sense in enumerate(content.senses):
        if sense.ambiguous is None or sense.ambiguous is AmbiguousWord.GIVEN:
            continue
        kind = _kind(sense.ambiguous, content, context, given=given)
        used = used or given
        content.senses[at] = Sense(kind=kind) if kind else sense
    used = used or _given_amount(content, given=given)
    if given and not used:
        raise _ask(AmbiguousWord.GIVEN)
    content.senses = [sense for sense in content.senses if sense.kind is not None]


def _kind(
    ambiguous: AmbiguousWord, content: ClauseContent, context: UnitContext, *, given: bool
) -> EntryKind | None:
    if given and ambiguous in _GIVEN:
        return _GIVEN[ambiguous]
    if ambiguous in _ALWAYS:
        return _ALWAYS[ambiguous]
    if ambiguous is AmbiguousWord.VIRGIN:
        return _virgin(content, context)
    if ambiguous is AmbiguousWord.CELL:
        return _cell(content)
    if ambiguous is AmbiguousWord.TRAP:
        return _trap(content, context)
    return _thing(ambiguous, content, given=given)


def _virgin(content: ClauseContent, context: UnitContext) -> EntryKind:
    if _has(content, Measure.DAYS):
        return EntryKind.VIRGIN_PLACED
    checks = context.checks or frozenset()
    awaited = checks & {CheckKind.EMERGENCE, CheckKind.LAYING, CheckKind.GIVE_UP}
    if not awaited and (content.into or CheckKind.RECELL in checks):
        raise _ask(AmbiguousWord.VIRGIN)
    return EntryKind.VIRGIN_SEEN


def _cell(content: ClauseContent) -> EntryKind:
    aged = _has(content, Measure.DAYS) or _has(content, Measure.EGG_DAYS)
    if aged or content.into or content.grafted_on is not None:
        return EntryKind.CELL_PLACED
    raise _ask(AmbiguousWord.CELL)


def _trap(content: ClauseContent, context: UnitContext) -> EntryKind:
    if _has(content, Measure.BEETLES):
        return EntryKind.TRAP_SERVICED
    if content.into:
        return EntryKind.TRAP_SET
    if CheckKind.TRAP in (context.checks or ()):
        return EntryKind.TRAP_SERVICED
    raise _ask(AmbiguousWord.TRAP)


def _thing(ambiguous: AmbiguousWord, content: ClauseContent, *, given: bool) -> EntryKind | None:
    """Read "food", "honey", "brood" and "bees" by the number or verb beside them."""
    kinds = {sense.kind for sense in content.senses}
    if ambiguous in (AmbiguousWord.FOOD, AmbiguousWord.HONEY) and (given or EntryKind.FED in kinds):
        return EntryKind.FED
    if ambiguous is AmbiguousWord.FOOD and _has(content, Measure.FRAMES):
        return EntryKind.STORES
    raise _ask(ambiguous)


_DATED = {EntryKind.CELL_PLACED, EntryKind.VIRGIN_PLACED, EntryKind.PUT_OFF}
"""Findings that days belong to; without them "give her 3 days" puts a check off."""


def _given_amount(content: ClauseContent, *, given: bool) -> bool:
    """Say whether the verb of giving has an amount for its object, and note the finding."""
    if not given:
        return False
    implied = {
        EntryKind.BROOD_ADDED: {"brood", "sealed_brood"},
        EntryKind.BEES_ADDED: {"bees"},
        EntryKind.FED: {"food", "honey"},
    }
    substances = {amount.of for amount in content.amounts if amount.of}
    kinds = [kind for kind, of in implied.items() if substances & of]
    if _has(content, Measure.SHAKES):
        kinds.append(EntryKind.BEES_ADDED)
    if _has(content, Measure.LITRES) or _has(content, Measure.FEEDERS):
        kinds.append(EntryKind.FED)
    if _has(content, Measure.DAYS) and not {sense.kind for sense in content.senses} & _DATED:
        kinds.append(EntryKind.PUT_OFF)
    made_up = any(sense.kind is EntryKind.MADE_UP for sense in content.senses)
    content.senses.extend(Sense(kind=kind) for kind in kinds if not made_up)
    return bool(kinds) or any(sense.kind is not None for sense in content.senses)


def _has(content: ClauseContent, measure: Measure) -> bool:
    return any(amount.measure is measure for amount in content.amounts)
