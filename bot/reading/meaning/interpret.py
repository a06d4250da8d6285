"""Clauses become findings, each for every unit it names, or questions."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from bot.reading.clauses.clause import Piece, is_remark
from bot.reading.meaning.partial_finding import Around, Days, Told, Unclear
from bot.reading.meaning.resolve import resolve, stands, yard_at_hand
from bot.reading.meaning.unit_findings import compose
from bot.reading.meaning.whole_yards import all_units, serves_whole_yard, yard_findings
from bot.reading.result import Finding, Question, QuestionKind
from bot.reading.scan.elements import Everything, FreeWords, Said, Units
from bot.reading.situation import Situation
from scheduling.entry_facts import entry_kinds
from scheduling.entry_kinds import EntryKind, Scope
from scheduling.places import Place, UnitName

_NOTHING_TOLD = frozenset({QuestionKind.NO_FINDING, QuestionKind.NO_UNIT})
_YARD_WIDE = entry_kinds(lambda facts: facts.scope is Scope.UNIT_OR_YARD)


@dataclass
class Assembly:
    """Findings and questions of a text, clause by clause."""

    text: str
    situation: Situation
    findings: list[Finding] = field(default_factory=list)
    questions: list[Question] = field(default_factory=list)
    before: tuple[Told, ...] = ()
    only_looked: list[Question] = field(default_factory=list)
    looked_whole: list[Question] = field(default_factory=list)

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

    def add(self, clause: Piece) -> None:
        """Read one clause."""
        try:
            self._read(clause)
        except Unclear as unclear:
            names = tuple(str(place.unit) for place in self._named(clause))
            self._ask(clause, unclear, names)

    def _ask(self, clause: Piece, unclear: Unclear, units: tuple[str, ...]) -> None:
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

    def _of_whole_boxes(self, clause: Piece) -> bool:
        references = [
            p for atom in clause.units if isinstance(atom, Units) for p in atom.references
        ]
        return bool(references) and not any(
            reference.letter or reference.position for reference in references
        )

    def _days(self, clause: Piece) -> Days:
        today = self.situation.today
        on = clause.when.spoken.behind(today) if clause.when else today
        if on is None:
            raise Unclear(QuestionKind.WHICH_DATE)
        return Days(today, on, self.situation.feeder_litres)

    def _read(self, clause: Piece) -> None:
        if clause.of_yard:
            self.findings.extend(yard_findings(clause, self.situation))
        elif clause.units or clause.excluded:
            self._read_units(clause)
        elif clause.yard and serves_whole_yard(clause.said):
            self._record(
                clause, all_units(clause.said, clause.yard, self.situation, excepting=False)
            )
        else:
            self._read_without_units(clause)

    def _read_units(self, clause: Piece) -> None:
        if not clause.said:
            raise Unclear(QuestionKind.NO_FINDING)
        self._record(clause, self._places(clause))

    def _places(self, clause: Piece) -> list[Place]:
        named = [atom for atom in clause.units if isinstance(atom, Units)]
        found = resolve(named, clause.yard, self.situation)
        left_out = resolve(clause.excluded, clause.yard, self.situation)
        places = list(found.places)
        if any(isinstance(atom, Everything) for atom in clause.units):
            excepting = bool(clause.excluded)
            places += all_units(clause.said, clause.yard, self.situation, excepting=excepting)
        strangers = set(left_out.places) - set(places)
        if left_out.questions or strangers or not clause.units:
            raise Unclear(
                QuestionKind.NO_SUCH_UNIT if left_out.questions else QuestionKind.WHICH_MEANING
            )
        self.questions.extend(q for q in found.questions if q not in self.questions)
        return [place for place in places if place not in left_out.places]

    def _named(self, clause: Piece) -> tuple[Place, ...]:
        named = [atom for atom in clause.units if isinstance(atom, Units)]
        return resolve(named, clause.yard, self.situation).places

    def _record(self, clause: Piece, places: Sequence[Place]) -> None:
        days = self._days(clause)
        told: tuple[Told, ...] = ()
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

    def _told(self, clause: Piece, place: Place, days: Days) -> tuple[Told, ...]:
        into = any(isinstance(atom, Units) and atom.into for atom in clause.units)
        return compose(clause.said, self._around(place), days, into=into)

    def _around(self, place: Place) -> Around:
        said = self.situation.last_said
        before = self.before or ((Told(said.kind, said.value),) if said else ())
        if not self.situation.yards:
            return Around(None, before)
        return Around(frozenset(self.situation.open_checks.get(place, ())), before)

    def _combining(self, told: Sequence[Told], places: Sequence[Place]) -> None:
        """Ask which unit stays when several are combined and none is named to take them in."""
        combined = [t for t in told if t.kind is EntryKind.COMBINED]
        if combined and not combined[0].note and len(places) > 1:
            options = (f"combined {places[0].unit} into {places[1].unit}",)
            raise Unclear(QuestionKind.WHICH_MEANING, options)

    def _taken_in(self, told: Sequence[Told], place: Place, days: Days) -> list[Finding]:
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

    def _read_without_units(self, clause: Piece) -> None:
        around = Around(None if not self.situation.yards else frozenset())
        days = self._days(clause)
        if all(isinstance(atom, FreeWords) for atom in clause.said) or self._is_put_off(clause):
            told = compose(clause.said, around, days, into=False)
            if all(t.kind in _YARD_WIDE for t in told):
                self._of_yard(clause, told, days)
                return
        puzzle = next((atom for atom in clause.said if not isinstance(atom, Said)), None)
        if puzzle is not None:
            compose(clause.said, around, days, into=False)
        raise Unclear(QuestionKind.NO_UNIT)

    def _is_put_off(self, clause: Piece) -> bool:
        kinds = [atom.sense.kind for atom in clause.said if isinstance(atom, Said)]
        return clause.yard is not None and kinds == [EntryKind.PUT_OFF]

    def _of_yard(self, clause: Piece, told: Sequence[Told], days: Days) -> None:
        yard = yard_at_hand(self.situation, clause.yard)
        if yard is None:
            names = tuple(each.name for each in self.situation.yards)
            raise Unclear(QuestionKind.WHICH_YARD, names)
        place = Place(yard)
        self.findings.extend(Finding(place, t.kind, t.value, days.on, t.note) for t in told)
