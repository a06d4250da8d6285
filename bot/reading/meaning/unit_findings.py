"""What is said of one unit becomes its findings."""

from collections.abc import Sequence

from bot.reading.clauses.clause import has_role
from bot.reading.lexicon.measures import Measure
from bot.reading.lexicon.sense import PhraseRole, Sense
from bot.reading.meaning.disambiguation import disambiguate
from bot.reading.meaning.finding_values import (
    ClauseContent,
    DayContext,
    PartialFinding,
    Unclear,
    UnitContext,
    filled_in,
)
from bot.reading.meaning.negation import with_negations
from bot.reading.result import QuestionKind
from bot.reading.scan.elements import (
    Break,
    Destination,
    Element,
    FreeText,
    GraftedOn,
    Phrase,
    Quantity,
    UnclearPart,
    Until,
)
from bot.reading.tokens.amounts import Amount, Substance
from scheduling.entry_kinds import EntryKind
from scheduling.values import Stores


def findings_of_unit(
    elements: Sequence[Element], context: UnitContext, days: DayContext, *, into: bool
) -> tuple[PartialFinding, ...]:
    """Give the findings that are said of one unit.

    Raises:
        Unclear: any part is not understood or could be read in two ways; then nothing of it may
            be recorded.
    """
    parts = [element for element in elements if not has_role(element, PhraseRole.REMARK)]
    unbroken = _unbroken(parts)
    if not unbroken:
        raise Unclear(QuestionKind.NO_FINDING)
    told = _same(unbroken, context)
    if told is not None:
        return told
    content = _sorted_content(_unbroken(with_negations(parts)), into=into)
    disambiguate(content, context)
    found = _findings(content, days)
    left = content.amounts or content.until or content.grafted_on or content.destination
    if found and not left:
        return found
    kind = QuestionKind.BAD_NUMBER if content.amounts else QuestionKind.NO_FINDING
    raise Unclear(kind)


def _unbroken(elements: Sequence[Element]) -> list[Element]:
    return [element for element in elements if not isinstance(element, Break)]


def _same(elements: Sequence[Element], context: UnitContext) -> tuple[PartialFinding, ...] | None:
    """Read "same", or "too" with nothing else said."""
    same = [element for element in elements if has_role(element, PhraseRole.SAME)]
    too = [element for element in elements if has_role(element, PhraseRole.TOO)]
    if not same and not (too and len(too) == len(elements)):
        return None
    if not context.before and len(same) + len(too) < len(elements):
        return None
    if len(same) + len(too) != len(elements) or not context.before:
        raise Unclear(QuestionKind.NO_FINDING)
    return context.before


def _sorted_content(elements: Sequence[Element], *, into: bool) -> ClauseContent:
    content = ClauseContent([], [], into=into)
    for element in elements:
        _sort(element, content)
    return content


def _sort(element: Element, content: ClauseContent) -> None:
    if isinstance(element, UnclearPart):
        raise Unclear(element.kind, element.options)
    if isinstance(element, Phrase):
        _sort_sense(element.sense, content)
    elif isinstance(element, Quantity):
        content.amounts.append(element.amount)
    else:
        _sort_detail(element, content)


def _sort_sense(sense: Sense, content: ClauseContent) -> None:
    if sense.role in (PhraseRole.TOO, PhraseRole.SAME):
        return
    if sense.role is not None:
        raise Unclear(QuestionKind.NOT_UNDERSTOOD)
    if sense.kind is EntryKind.FED:
        _set_food_apart(content)
    if sense not in content.senses:
        content.senses.append(sense)


def _set_food_apart(content: ClauseContent) -> None:
    """Keep "half frame food, fed 1 quart" from being food given."""
    food = [amount for amount in content.amounts if amount.of is Substance.FOOD]
    if len(food) == 1 and content.food_seen is None and not content.senses:
        content.food_seen = food[0]
        content.amounts.remove(food[0])


def _sort_detail(element: Element, content: ClauseContent) -> None:
    if isinstance(element, Until) and content.until is None:
        content.until = element.spoken
    elif isinstance(element, GraftedOn) and content.grafted_on is None:
        content.grafted_on = element.spoken
    elif isinstance(element, Destination) and content.destination is None:
        content.destination = element.text
    elif isinstance(element, FreeText):
        content.note = element.text
    else:
        raise Unclear(QuestionKind.NOT_UNDERSTOOD)


def _findings(content: ClauseContent, days: DayContext) -> tuple[PartialFinding, ...]:
    senses = sorted(content.senses, key=lambda sense: sense.kind is not EntryKind.MADE_UP)
    found = [
        filled_in(sense.kind, sense.value, content, days)
        for sense in senses
        if sense.kind is not None and sense.kind is not EntryKind.COMBINED
    ]
    if any(sense.kind is EntryKind.COMBINED for sense in senses):
        found.append(PartialFinding(EntryKind.COMBINED, None, content.destination or ""))
        content.destination = None
    if not any(amount.measure is Measure.KILOGRAMS for amount in content.amounts):
        found.extend(_implied(content, days))
    if content.food_seen is not None:
        found.append(PartialFinding(EntryKind.STORES, Stores(content.food_seen.number)))
    if content.note is not None:
        found.append(PartialFinding(EntryKind.NOTE, None, content.note))
        content.note = None
    return _without_repetitions(found)


def _implied(content: ClauseContent, days: DayContext) -> list[PartialFinding]:
    found: list[PartialFinding] = []
    while content.amounts:
        left = len(content.amounts)
        # What a ratio belongs to is told by the other numbers.
        telling = min(content.amounts, key=lambda amount: amount.measure is Measure.PARTS)
        found.append(filled_in(_implied_kind(telling), None, content, days))
        if len(content.amounts) == left:
            raise Unclear(QuestionKind.BAD_NUMBER)
    return found


def _without_repetitions(found: Sequence[PartialFinding]) -> tuple[PartialFinding, ...]:
    """Drop repetitions, and a finding without a value where the same has one."""
    valued = {told.kind for told in found if told.value is not None}
    kept = [t for t in found if t.value is not None or t.kind not in valued]
    return tuple(dict.fromkeys(kept))


def _implied_kind(amount: Amount) -> EntryKind:
    """Give the finding that a number tells by itself: "1 quart", "12 beetles".

    Raises:
        Unclear: it could belong to several, or to none; or the ratio of syrup is all that is said.
    """
    if amount.measure in (Measure.LITRES, Measure.FEEDERS):
        return EntryKind.FED
    if amount.measure is Measure.PARTS:
        # A time of day and many other things are written like a ratio.
        raise Unclear(QuestionKind.BAD_NUMBER)
    if amount.measure is Measure.BEETLES:
        return EntryKind.TRAP_SERVICED
    if amount.measure is Measure.FRAMES and amount.of is Substance.FOOD:
        return EntryKind.STORES
    if amount.measure is Measure.SHAKES:
        return EntryKind.BEES_ADDED
    raise Unclear(QuestionKind.WHICH_MEANING, _MAYBE.get(amount.of, ()))


_MAYBE: dict[Substance | None, tuple[str, ...]] = {
    Substance.HONEY: ("1/2 frame food", "fed 1 frame honey"),
    Substance.BROOD: ("gave 1 frame brood", "sealed brood"),
    Substance.SEALED_BROOD: ("gave 1 frame brood", "sealed brood"),
    Substance.BEES: ("gave 1 frame bees",),
}
