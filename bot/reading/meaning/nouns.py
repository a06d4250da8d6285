"""Nouns that their neighbours decide: "virgin", "cell", "trap", "food", "brood", with "gave"."""

from bot.reading.lexicon.measures import Measure
from bot.reading.lexicon.sense import AmbiguousWord, Sense
from bot.reading.meaning.partial_finding import ClauseContent, Unclear, UnitContext
from bot.reading.result import QuestionKind
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind

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
_ASK: dict[AmbiguousWord, tuple[str, ...]] = {
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


def disambiguate_nouns(content: ClauseContent, context: UnitContext) -> None:
    """Turn nouns and the verb of giving into findings, in place.

    Raises:
        Unclear: a noun could be something seen or something given.
    """
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
        raise Unclear(QuestionKind.WHICH_MEANING, _ASK[AmbiguousWord.GIVEN])
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
        raise Unclear(QuestionKind.WHICH_MEANING, _ASK[AmbiguousWord.VIRGIN])
    return EntryKind.VIRGIN_SEEN


def _cell(content: ClauseContent) -> EntryKind:
    aged = _has(content, Measure.DAYS) or _has(content, Measure.EGG_DAYS)
    if aged or content.into or content.grafted_on is not None:
        return EntryKind.CELL_PLACED
    raise Unclear(QuestionKind.WHICH_MEANING, _ASK[AmbiguousWord.CELL])


def _trap(content: ClauseContent, context: UnitContext) -> EntryKind:
    if _has(content, Measure.BEETLES):
        return EntryKind.TRAP_SERVICED
    if content.into:
        return EntryKind.TRAP_SET
    if CheckKind.TRAP in (context.checks or ()):
        return EntryKind.TRAP_SERVICED
    raise Unclear(QuestionKind.WHICH_MEANING, _ASK[AmbiguousWord.TRAP])


def _thing(ambiguous: AmbiguousWord, content: ClauseContent, *, given: bool) -> EntryKind | None:
    """Read "food", "honey", "brood" and "bees" by the number or verb beside them."""
    kinds = {sense.kind for sense in content.senses}
    if ambiguous in (AmbiguousWord.FOOD, AmbiguousWord.HONEY) and (given or EntryKind.FED in kinds):
        return EntryKind.FED
    if ambiguous is AmbiguousWord.FOOD and _has(content, Measure.FRAMES):
        return EntryKind.STORES
    raise Unclear(QuestionKind.WHICH_MEANING, _ASK[ambiguous])


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
