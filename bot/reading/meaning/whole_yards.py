"""What is said of a whole yard, a batch or of all units: the weather, a visit, a graft, "all"."""

from collections.abc import Iterable, Sequence
from datetime import date

from bot.reading.clauses.clause import YARD_KINDS, Clause, has_role
from bot.reading.lexicon.measures import Measure
from bot.reading.lexicon.sense import AmbiguousWord, PhraseRole
from bot.reading.meaning.partial_finding import Unclear
from bot.reading.meaning.resolve import yard_at_hand
from bot.reading.result import Finding, QuestionKind
from bot.reading.scan.elements import Break, Element, GraftedBatch, Phrase, Quantity
from bot.reading.situation import Situation
from scheduling.check_kinds import CheckKind
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName
from scheduling.values import Graft

_OUT = frozenset({CheckKind.EMERGENCE, CheckKind.RELEASE})
_ASKED_BY = {AmbiguousWord.OUT: _OUT, AmbiguousWord.NOT_OUT: _OUT}
"""A word that several findings share, and the checks at which they are looked for."""


def serves_whole_yard(said: Sequence[Element]) -> bool:
    """Say whether what is said is of the sort that is done to a whole yard at once."""
    fed = {Measure.LITRES, Measure.FEEDERS, Measure.PARTS, Measure.BEETLES}
    return bool(said) and all(
        isinstance(element, Break)
        or (isinstance(element, Phrase) and _of_whole_yard(element.sense.kind))
        or (isinstance(element, Quantity) and element.amount.measure in fed)
        for element in said
    )


def _of_whole_yard(kind: EntryKind | None) -> bool:
    return kind is not None and ENTRY_FACTS[kind].whole_yard


def all_units(
    said: Sequence[Element], named_yard: str | None, situation: Situation, *, excepting: bool
) -> list[Place]:
    """Give the units that "all" means.

    A yard named, or a finding of a whole yard's work: every unit of the yard. Otherwise the one
    group that waits for this finding.

    Raises:
        Unclear: there is no such group, or more than one.
    """
    if named_yard or serves_whole_yard(said):
        return _units_of_yard(named_yard, situation)
    group = _waiting(said, situation)
    yards = {place.yard for place in group}
    if len(yards) == 1:
        return group
    if excepting and not yards:
        return _units_of_yard(None, situation)
    raise Unclear(QuestionKind.NO_UNIT)


def _units_of_yard(named: str | None, situation: Situation) -> list[Place]:
    name = yard_at_hand(situation, named)
    if name is None:
        names = tuple(yard.name for yard in situation.yards)
        raise Unclear(QuestionKind.WHICH_YARD, names)
    found = [
        Place(name, unit) for yard in situation.yards if yard.name == name for unit in yard.units
    ]
    if not found:
        raise Unclear(QuestionKind.NO_UNIT)
    return found


def _waiting(said: Sequence[Element], situation: Situation) -> list[Place]:
    """Give the one group of units with an open check that what is said answers."""
    wanted: frozenset[CheckKind] = frozenset()
    for element in said:
        if isinstance(element, Phrase):
            wanted |= _checks_of(element)
    groups = {check: _with_open_check(check, situation) for check in wanted}
    found = [group for group in groups.values() if group]
    return found[0] if len(found) == 1 else []


def _with_open_check(check: CheckKind, situation: Situation) -> list[Place]:
    found = [place for place, checks in situation.open_checks().items() if check in checks]
    units = [place for place in found if place.unit is not None]
    return sorted(units, key=lambda place: (place.yard, place.unit or UnitName(0)))


def _checks_of(element: Phrase) -> frozenset[CheckKind]:
    kind, ambiguous = element.sense.kind, element.sense.ambiguous
    if kind is not None:
        return ENTRY_FACTS[kind].looked_for_at
    return _ASKED_BY.get(ambiguous, frozenset()) if ambiguous is not None else frozenset()


def yard_findings(clause: Clause, situation: Situation) -> list[Finding]:
    """Give the finding about a yard or batch.

    Raises:
        Unclear: more is said than that, or the yard or the day is not clear.
    """
    said = _once(element for element in clause.said if not has_role(element, PhraseRole.REMARK))
    if len(said) != 1 or clause.units:
        raise Unclear(QuestionKind.NOT_UNDERSTOOD)
    yard = yard_at_hand(situation, clause.yard)
    if yard is None:
        raise Unclear(QuestionKind.WHICH_YARD, tuple(each.name for each in situation.yards))
    element = said[0]
    if isinstance(element, GraftedBatch):
        return [_batch(element, clause, yard, situation.today)]
    return [_of_yard(element, clause, yard, situation)]


def _once(elements: Iterable[Element]) -> list[Element]:
    """Drop commas, and the same weather said in other words."""
    said = {
        element.sense if isinstance(element, Phrase) else element: element
        for element in elements
        if not isinstance(element, Break)
    }
    return list(said.values())


def _batch(element: GraftedBatch, clause: Clause, yard: str, today: date) -> Finding:
    spoken = element.spoken or (clause.when.spoken if clause.when else None)
    on = spoken.behind(today) if spoken else today
    if on is None:
        raise Unclear(QuestionKind.WHICH_DATE)
    if not element.clear:
        raise Unclear(QuestionKind.BAD_NUMBER)
    graft = None if element.graft == Graft() else element.graft
    return Finding(Place(yard, batch=on.isoformat()), EntryKind.GRAFTED, graft, on)


def _of_yard(element: Element, clause: Clause, yard: str, situation: Situation) -> Finding:
    if not isinstance(element, Phrase) or element.sense.kind not in YARD_KINDS:
        raise Unclear(QuestionKind.NOT_UNDERSTOOD)
    if element.sense.kind is EntryKind.YARD_TAKEN and clause.yard is None:
        raise Unclear(QuestionKind.WHICH_YARD, _names(situation))
    on = _day(clause, situation.today, ahead=element.sense.kind is EntryKind.YARD_TAKEN)
    return Finding(Place(yard), EntryKind(element.sense.kind), element.sense.value, on)


def _names(situation: Situation) -> tuple[str, ...]:
    return tuple(each.name for each in situation.yards)


def _day(clause: Clause, today: date, *, ahead: bool) -> date:
    if clause.when is None:
        return today
    spoken = clause.when.spoken
    on = (spoken.ahead(today) if ahead and spoken.ago != 0 else None) or spoken.behind(today)
    if on is None:
        raise Unclear(QuestionKind.WHICH_DATE)
    return on
