"""Nouns that their neighbours decide: "virgin", "cell", "trap", "food", "brood", with "gave"."""

from bot.reading.lexicon.measures import Measure
from bot.reading.lexicon.sense import Hint, Sense
from bot.reading.meaning.partial_finding import Around, Unclear, Words
from bot.reading.result import QuestionKind
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind

_GIVEN: dict[Hint, EntryKind] = {
    Hint.VIRGIN: EntryKind.VIRGIN_PLACED,
    Hint.CELL: EntryKind.CELL_PLACED,
    Hint.TRAP: EntryKind.TRAP_SET,
    Hint.BROOD: EntryKind.BROOD_ADDED,
    Hint.BEES: EntryKind.BEES_ADDED,
    Hint.FONDANT: EntryKind.FED,
}
_ALWAYS: dict[Hint, EntryKind] = {
    Hint.QUEEN: EntryKind.QUEEN_SEEN,
    Hint.FONDANT: EntryKind.FED,
}
_ASK: dict[Hint, tuple[str, ...]] = {
    Hint.VIRGIN: ("virgin seen", "virgin placed"),
    Hint.CELL: ("new cell", "own cells"),
    Hint.TRAP: ("trap set", "trap emptied"),
    Hint.BROOD: ("sealed brood", "brood added"),
    Hint.BEES: ("bees added", "made up"),
    Hint.FOOD: ("1/2 frame food", "no food"),
    Hint.HONEY: ("1/2 frame food", "fed 1 frame honey"),
    Hint.GIVEN: ("gave brood", "gave bees"),
    Hint.TAKE: ("queen taken", "gone"),
}


def placed_nouns(words: Words, around: Around) -> None:
    """Turn nouns and the verb of giving into findings, in place.

    Raises:
        Unclear: a noun could be something seen or something given.

    """
    given = Sense(hint=Hint.GIVEN) in words.senses
    if _has(words, Measure.KILOGRAMS) and Sense(hint=Hint.FONDANT) not in words.senses:
        raise Unclear(QuestionKind.BAD_NUMBER, ("2 lb fondant",))
    used = False
    for at, sense in enumerate(words.senses):
        if sense.hint is None or sense.hint is Hint.GIVEN:
            continue
        kind = _kind(sense.hint, words, around, given=given)
        used = used or given
        words.senses[at] = Sense(kind=kind) if kind else sense
    used = used or _given_amount(words, given=given)
    if given and not used:
        raise Unclear(QuestionKind.WHICH_MEANING, _ASK[Hint.GIVEN])
    words.senses = [sense for sense in words.senses if sense.kind is not None]


def _kind(hint: Hint, words: Words, around: Around, *, given: bool) -> EntryKind | None:
    if given and hint in _GIVEN:
        return _GIVEN[hint]
    if hint in _ALWAYS:
        return _ALWAYS[hint]
    if hint is Hint.VIRGIN:
        return _virgin(words, around)
    if hint is Hint.CELL:
        return _cell(words)
    if hint is Hint.TRAP:
        return _trap(words, around)
    return _thing(hint, words, given=given)


def _virgin(words: Words, around: Around) -> EntryKind:
    if _has(words, Measure.DAYS):
        return EntryKind.VIRGIN_PLACED
    checks = around.checks or frozenset()
    awaited = checks & {CheckKind.EMERGENCE, CheckKind.LAYING, CheckKind.GIVE_UP}
    if not awaited and (words.into or CheckKind.RECELL in checks):
        raise Unclear(QuestionKind.WHICH_MEANING, _ASK[Hint.VIRGIN])
    return EntryKind.VIRGIN_SEEN


def _cell(words: Words) -> EntryKind:
    aged = _has(words, Measure.DAYS) or _has(words, Measure.EGG_DAYS)
    if aged or words.into or words.grafted_on is not None:
        return EntryKind.CELL_PLACED
    raise Unclear(QuestionKind.WHICH_MEANING, _ASK[Hint.CELL])


def _trap(words: Words, around: Around) -> EntryKind:
    if _has(words, Measure.BEETLES):
        return EntryKind.TRAP_SERVICED
    if words.into:
        return EntryKind.TRAP_SET
    if CheckKind.TRAP in (around.checks or ()):
        return EntryKind.TRAP_SERVICED
    raise Unclear(QuestionKind.WHICH_MEANING, _ASK[Hint.TRAP])


def _thing(hint: Hint, words: Words, *, given: bool) -> EntryKind | None:
    """Read "food", "honey", "brood" and "bees" by the number or verb beside them."""
    kinds = {sense.kind for sense in words.senses}
    if hint in (Hint.FOOD, Hint.HONEY) and (given or EntryKind.FED in kinds):
        return EntryKind.FED
    if hint is Hint.FOOD and _has(words, Measure.FRAMES):
        return EntryKind.STORES
    raise Unclear(QuestionKind.WHICH_MEANING, _ASK[hint])


_DATED = {EntryKind.CELL_PLACED, EntryKind.VIRGIN_PLACED, EntryKind.PUT_OFF}
"""Findings that days belong to; without them "give her 3 days" puts a check off."""


def _given_amount(words: Words, *, given: bool) -> bool:
    """Say whether the verb of giving has an amount for its object, and note the finding."""
    if not given:
        return False
    implied = {
        EntryKind.BROOD_ADDED: {"brood", "sealed_brood"},
        EntryKind.BEES_ADDED: {"bees"},
        EntryKind.FED: {"food", "honey"},
    }
    substances = {amount.of for amount in words.amounts if amount.of}
    kinds = [kind for kind, of in implied.items() if substances & of]
    if _has(words, Measure.SHAKES):
        kinds.append(EntryKind.BEES_ADDED)
    if _has(words, Measure.LITRES) or _has(words, Measure.FEEDERS):
        kinds.append(EntryKind.FED)
    if _has(words, Measure.DAYS) and not {sense.kind for sense in words.senses} & _DATED:
        kinds.append(EntryKind.PUT_OFF)
    made_up = any(sense.kind is EntryKind.MADE_UP for sense in words.senses)
    words.senses.extend(Sense(kind=kind) for kind in kinds if not made_up)
    return bool(kinds) or any(sense.kind is not None for sense in words.senses)


def _has(words: Words, measure: Measure) -> bool:
    return any(amount.measure is measure for amount in words.amounts)
