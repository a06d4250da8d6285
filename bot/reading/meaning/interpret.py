"""Clauses become findings, for every unit they name or of a yard or batch; or questions."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from bot.reading.clauses.clause import YARD_KINDS, Clause, has_role, is_remark
from bot.reading.lexicon.sense import PhraseRole
from bot.reading.meaning.finding_values import DayContext, PartialFinding, Unclear, UnitContext
from bot.reading.meaning.resolve import (
    all_units,
    resolve,
    serves_whole_yard,
    stands,
    yard_at_hand,
    yard_unclear,
)
from bot.reading.meaning.unit_findings import findings_of_unit
from bot.reading.result import Finding, Question, QuestionKind
from bot.reading.scan.elements import (
    AllUnits,
    Break,
    Element,
    FreeText,
    GraftedBatch,
    NamedUnits,
    Phrase,
)
from bot.reading.situation import Situation
from scheduling.check_kinds import CheckKind
from scheduling.entry_facts import entry_kinds
from scheduling.entry_kinds import EntryKind, Scope
from scheduling.places import Place, UnitName
from scheduling.values import Graft

_NOTHING_TOLD = frozenset({QuestionKind.NO_FINDING, QuestionKind.NO_UNIT})
_YARD_WIDE = entry_kinds(lambda facts: facts.scope is Scope.UNIT_OR_YARD)


@dataclass
class Interpretation:
    """Findings and questions of a text, clause by clause."""

    text: str
    situation: Situation
    findings: list[Finding] = field(default_factory=list)
    questions: list[Question] = field(default_factory=list)
    before: tuple[PartialFinding, ...] = ()
    only_looked: list[Question] = field(default_factory=list)
    looked_whole: list[Question] = field(default_factory=list)

    @cached_property
    def _open_checks(self) -> Mapping[Place, tuple[CheckKind, ...]]:
        return self.situation.open_checks()

    @property
    def asked(self) -> tuple[Question, ...]:
        """The questions, without those about units that were opened and then reported on."""
        told = {str(finding.place.unit) for finding in self.findings}
        done = [
            question
            for question in self.only_looked
            if told and (told >= set(question.units) or question in self.looked_whole)
        ]
        return tuple(question for question in self.questions if question not in done)

    def add(self, clause: Clause) -> None:
        """Read one clause."""
        try:
            self._read(clause)
        except Unclear as unclear:
            names = tuple(str(place.unit) for place in self._named(clause))
            self._ask(clause, unclear, names)

    def _ask(self, clause: Clause, unclear: Unclear, units: tuple[str, ...]) -> None:
        part = self.text[clause.start : clause.end]
        question = Question(unclear.kind, part, units, unclear.options)
        same = [
            q
            for q in self.questions
            if (q.kind, q.part, q.options) == (question.kind, part, unclear.options)
        ]
        if same:
            self.questions.remove(same[0])
            units = tuple(dict.fromkeys((*same[0].units, *units)))
            question = Question(unclear.kind, part, units, unclear.options)
        self.questions.append(question)
        if unclear.kind in _NOTHING_TOLD and is_remark(clause):
            self.only_looked.append(question)
            if self._of_whole_boxes(clause):
                self.looked_whole.append(question)

    def _of_whole_boxes(self, clause: Clause) -> bool:
        named = [element for element in clause.units if isinstance(element, NamedUnits)]
        units = [unit for element in named for unit in element.references]
        return bool(units) and not any(unit.letter or unit.position for unit in units)

    def _days(self, clause: Clause) -> DayContext:
        today = self.situation.today
        on = clause.when.spoken.behind(today) if clause.when else today
        if on is None:
            raise Unclear(QuestionKind.WHICH_DATE)
        return DayContext(today, on, self.situation.feeder_litres)

    def _read(self, clause: Clause) -> None:
        if clause.of_yard:
            self.findings.extend(_yard_findings(clause, self.situation))
        elif clause.units or clause.excluded:
            self._read_units(clause)
        elif clause.yard and serves_whole_yard(clause.said):
            self._record(
                clause, all_units(clause.said, clause.yard, self.situation, excepting=False)
            )
        elif clause.said and self.situation.spoken_of and clause.yard is None:
            self._record(clause, self.situation.spoken_of)
        else:
            self._read_without_units(clause)

    def _read_units(self, clause: Clause) -> None:
        if not clause.said:
            raise Unclear(QuestionKind.NO_FINDING)
        self._record(clause, self._places(clause))

    def _places(self, clause: Clause) -> list[Place]:
        named = [element for element in clause.units if isinstance(element, NamedUnits)]
        found = resolve(named, clause.yard, self.situation)
        left_out = resolve(clause.excluded, clause.yard, self.situation)
        places = list(found.places)
        if any(isinstance(element, AllUnits) for element in clause.units):
            excepting = bool(clause.excluded)
            places += all_units(clause.said, clause.yard, self.situation, excepting=excepting)
        strangers = set(left_out.places) - set(places)
        if left_out.questions or strangers or not clause.units:
            raise Unclear(
                QuestionKind.NO_SUCH_UNIT if left_out.questions else QuestionKind.WHICH_MEANING
            )
        self.questions.extend(q for q in found.questions if q not in self.questions)
        return [place for place in places if place not in left_out.places]

    def _named(self, clause: Clause) -> tuple[Place, ...]:
        named = [element for element in clause.units if isinstance(element, NamedUnits)]
        return resolve(named, clause.yard, self.situation).places

    def _record(self, clause: Clause, places: Sequence[Place]) -> None:
        days = self._days(clause)
        told: tuple[PartialFinding, ...] = ()
        for place in places:
            try:
                told = self._told(clause, place, days)
            except Unclear as unclear:
                self._ask(clause, unclear, (str(place.unit),))
                continue
            self._combining(told, places)
            self.findings.extend(Finding(place, t.kind, t.value, days.on, t.note) for t in told)
            self.findings.extend(self._taken_in(told, place, days))
        self.before = told or self.before

    def _told(self, clause: Clause, place: Place, days: DayContext) -> tuple[PartialFinding, ...]:
        into = any(isinstance(element, NamedUnits) and element.into for element in clause.units)
        return findings_of_unit(clause.said, self._context(place), days, into=into)

    def _context(self, place: Place) -> UnitContext:
        said = self.situation.last_said
        before = self.before or ((PartialFinding(said.kind, said.value),) if said else ())
        if not self.situation.yards:
            return UnitContext(None, before)
        checks = frozenset(self._open_checks.get(place, ()))
        return UnitContext(checks, before, self.situation.newest(place))

    def _combining(self, told: Sequence[PartialFinding], places: Sequence[Place]) -> None:
        """Ask which unit stays when several are combined and none is named to take them in."""
        combined = [t for t in told if t.kind is EntryKind.COMBINED]
        if combined and not combined[0].note and len(places) > 1:
            options = (f"combined {places[0].unit} into {places[1].unit}",)
            raise Unclear(QuestionKind.WHICH_MEANING, options)

    def _taken_in(
        self, told: Sequence[PartialFinding], place: Place, days: DayContext
    ) -> list[Finding]:
        """Give the note for the unit that another one was combined into, if it is one of ours."""
        into = next((t.note for t in told if t.kind is EntryKind.COMBINED and t.note), None)
        if into is None:
            return []
        try:
            name = UnitName.parse(into)
        except ValueError:
            return []
        taking_in = Place(place.yard, name)
        if not stands(self.situation, taking_in):
            return []
        note = f"{place.unit} combined into {name}"
        return [Finding(taking_in, EntryKind.NOTE, None, days.on, note)]

    def _read_without_units(self, clause: Clause) -> None:
        context = UnitContext(None if not self.situation.yards else frozenset())
        days = self._days(clause)
        only_text = all(isinstance(element, FreeText) for element in clause.said)
        if only_text or self._is_put_off(clause):
            told = findings_of_unit(clause.said, context, days, into=False)
            if all(t.kind in _YARD_WIDE for t in told):
                self._of_yard(clause, told, days)
                return
        if not all(isinstance(element, Phrase) for element in clause.said):
            findings_of_unit(clause.said, context, days, into=False)
        raise Unclear(QuestionKind.NO_UNIT)

    def _is_put_off(self, clause: Clause) -> bool:
        kinds = [element.sense.kind for element in clause.said if isinstance(element, Phrase)]
        return clause.yard is not None and kinds == [EntryKind.PUT_OFF]

    def _of_yard(self, clause: Clause, told: Sequence[PartialFinding], days: DayContext) -> None:
        place = Place(yard_at_hand(self.situation, clause.yard))
        self.findings.extend(Finding(place, t.kind, t.value, days.on, t.note) for t in told)


def _yard_findings(clause: Clause, situation: Situation) -> list[Finding]:
    """Give the finding about a yard or batch.

    Raises:
        Unclear: more is said than that, or the yard or the day is not clear.
    """
    said = _once(element for element in clause.said if not has_role(element, PhraseRole.REMARK))
    if len(said) != 1 or clause.units:
        raise Unclear(QuestionKind.NOT_UNDERSTOOD)
    yard = yard_at_hand(situation, clause.yard)
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
        raise yard_unclear(situation)
    on = _day(clause, situation.today, ahead=element.sense.kind is EntryKind.YARD_TAKEN)
    return Finding(Place(yard), EntryKind(element.sense.kind), element.sense.value, on)


def _day(clause: Clause, today: date, *, ahead: bool) -> date:
    if clause.when is None:
        return today
    spoken = clause.when.spoken
    on = (spoken.ahead(today) if ahead and spoken.ago != 0 else None) or spoken.behind(today)
    if on is None:
        raise Unclear(QuestionKind.WHICH_DATE)
    return on
