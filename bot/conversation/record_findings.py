"""Findings from the field: recorded, taken back, and answered with what happens next."""

from collections.abc import Iterable, Sequence, Set
from dataclasses import replace
from datetime import date
from operator import attrgetter

from bot.conversation.permissions import Act, not_allowed
from bot.conversation.quoted import Quoted
from bot.conversation.turn import Turn
from bot.reading.result import Finding, QuestionKind, Reading
from bot.wording.days_and_numbers import overfed_words
from bot.wording.message import Message
from bot.wording.place_names import place_words
from bot.wording.questions import ask
from bot.wording.report_answers import answered, noted_by_another, undone
from scheduling.checks.check import Check
from scheduling.checks.upkeep import overfed
from scheduling.entries import Entry, standing, struck
from scheduling.entry_facts import ENTRY_FACTS, entry_kinds
from scheduling.entry_kinds import EntryKind, Scope
from scheduling.places import Place

_RECORDED_AT = attrgetter("recorded_at")


def report(turn: Turn, reading: Reading) -> Message:
    """Record what was understood and ask about the rest."""
    notes = bool(reading.findings) or turn.message.corrects is not None
    if notes and (answer := not_allowed(turn, Act.NOTE)) is not None:
        return answer
    before = all_checks(turn) if _speaks_of_weather(reading) else []
    taken = _take_back(turn, reading)
    others = _noted_by_others(turn, reading.findings)
    turn.append([turn.entry(finding) for finding in reading.findings])
    _remember(turn, reading)
    answer = answered(
        reading.findings,
        _checks_near(turn, reading),
        [ask(question) for question in reading.questions],
        turn.today,
        turn.units,
        corrects=bool(taken),
        moved=moved_checks(before, all_checks(turn)) if _speaks_of_weather(reading) else None,
    )
    if taken and not reading.findings:
        return _with_lines(
            Message((undone_words(turn, taken),)), [answer.text] if answer.text else []
        )
    answer = replace(answer, places=tuple(dict.fromkeys(f.place for f in reading.findings)))
    return _with_lines(answer, [*_overfed(turn, reading.findings), *others])


def said_by_quoted(turn: Turn, quoted: Quoted) -> list[Entry]:
    """What this person noted by the message that a quoted answer is of."""
    if quoted.of_message is None:
        return []
    found = turn.records.entries_from_message(turn.message.channel, quoted.of_message)
    return [entry for entry in found if entry.person == turn.person.name]


def all_checks(turn: Turn) -> list[Check]:
    """Every check and rest of the crew."""
    return [check for checks in turn.calendar.checks.values() for check in checks]


def _checks_near(turn: Turn, reading: Reading) -> list[Check]:
    """The checks at the places that were spoken of, and in the yards spoken of as a whole."""
    spoken_of = dict.fromkeys(finding.place for finding in reading.findings)
    checks = turn.calendar.checks
    whole = {p.yard for p in spoken_of if p.unit is None and p.batch is None}
    places = (
        [*spoken_of, *(place for place in checks if place.yard in whole)] if whole else spoken_of
    )
    return [check for place in dict.fromkeys(places) for check in checks.get(place, ())]


def _overfed(turn: Turn, findings: tuple[Finding, ...]) -> list[str]:
    """Warn of units that were just fed and have more than they should."""
    fed = {f.place for f in findings if f.kind is EntryKind.FED}
    full = [p for p in sorted(fed, key=str) if overfed(turn.calendar.queen(p), turn.today)]
    by_yard: dict[str, list[Place]] = {}
    for place in full:
        by_yard.setdefault(place.yard, []).append(place)
    return [
        overfed_words(place_words(places, turn.units[yard])) for yard, places in by_yard.items()
    ]


_MOVES_A_YARD = entry_kinds(lambda facts: facts.scope is Scope.YARD and facts.bears_on_others)


def _speaks_of_weather(reading: Reading) -> bool:
    kinds = {finding.kind for finding in reading.findings}
    return bool(kinds) and kinds <= _MOVES_A_YARD


def moved_checks(before: Sequence[Check], after: Sequence[Check]) -> list[Check]:
    """Checks that are best done on another day than before."""
    known = {(check.place, check.kind): check.best for check in before}
    return [
        c for c in after if c.follows is None and known.get((c.place, c.kind), c.best) != c.best
    ]


def undone_words(turn: Turn, taken: list[Finding]) -> str:
    """Say what was taken back, and what is due now."""
    return undone(taken, all_checks(turn), turn.today, turn.units)


def _take_back(turn: Turn, reading: Reading) -> list[Finding]:
    """Strike what this message corrects; gives what that had said."""
    taken = list(_replaced_by(turn, reading)) if reading.corrects else []
    if turn.message.corrects is not None:
        taken += said_by_message(turn, turn.message.corrects)
    return take_back(turn, dict.fromkeys(taken))


def _replaced_by(turn: Turn, reading: Reading) -> list[Entry]:
    """What "oops" takes back; after a quote something of the quoted message and of no other.

    Of that one what it said of the units named now; all of it if it spoke of none of them.
    """
    said = said_by_quoted(turn, turn.quoted) if turn.quoted is not None else []
    gone = struck(turn.log) if said else frozenset()
    counts = [e for e in said if e.kind is not EntryKind.STRIKE and e.uid not in gone]
    if not counts:
        return replaced_by(turn, reading.findings)
    named = {finding.place for finding in reading.findings}
    return [entry for entry in counts if entry.place in named] or (counts if named else [])


def _noted_by_others(turn: Turn, findings: tuple[Finding, ...]) -> list[str]:
    """What others noted of the same places on the same day, so that nobody looks twice."""
    about = {(finding.place, finding.on) for finding in findings}
    said: dict[str, list[Finding]] = {}
    for entry in _told_of(turn, {place for place, _ in about}, {on for _, on in about}):
        if (entry.place, entry.on) in about and entry.person != turn.person.name:
            said.setdefault(entry.person, []).append(finding_of(entry))
    return [noted_by_another(who, what, turn.today, turn.units) for who, what in said.items()]


def _told_of(turn: Turn, places: Set[Place], days: Set[date]) -> list[Entry]:
    """The standing entries about places on days, and others among them, in their order."""
    if not all(place.unit for place in places):
        log = (e for e in turn.log if e.on in days or e.kind is EntryKind.STRIKE)
        return standing(log)
    # A unit's state holds what was told of it: the whole log is some thousand entries.
    units = turn.calendar.units
    states = (units[place] for place in places if place in units)
    return sorted((e for state in states for e in state.entries), key=_RECORDED_AT)


def _remember(turn: Turn, reading: Reading) -> None:
    """Keep for the next message what "same" and a yard's bare name refer to."""
    # Of a text that was noted in part, reading the whole once more would note that part twice.
    whole = not reading.findings and any(
        q.kind is QuestionKind.WHICH_YARD for q in reading.questions
    )
    turn.state = replace(turn.state, unanswered=turn.message.text if whole else "", more=())
    if reading.findings:
        last = reading.findings[-1]
        same = (f for f in reading.findings if (f.kind, f.value) == (last.kind, last.value))
        turn.state = turn.state.having_said(last, tuple(f.place for f in same))


def _with_lines(answer: Message, lines: list[str]) -> Message:
    if not lines:
        return answer
    first, *rest = answer.parts
    return replace(answer, parts=("\n".join([first, *lines]), *rest))


def take_back(turn: Turn, entries: Iterable[Entry]) -> list[Finding]:
    """Strike entries; gives what they had said, without the strikes among them."""
    taken = list(entries)
    turn.append([turn.strike(entry) for entry in taken])
    return [finding_of(entry) for entry in taken if entry.kind is not EntryKind.STRIKE]


def finding_of(entry: Entry) -> Finding:
    """What an entry says."""
    return Finding(entry.place, entry.kind, entry.value, entry.on, entry.note)


def said_by_message(turn: Turn, message: str) -> list[Entry]:
    """Entries of an earlier message of this channel that still count."""
    gone = struck(turn.log)
    found = turn.records.entries_from_message(turn.message.channel, message)
    return [e for e in found if e.uid not in gone and e.kind is not EntryKind.STRIKE]


def replaced_by(turn: Turn, findings: Sequence[Finding]) -> list[Entry]:
    """What "oops" takes back: the newest word of the same subject on each place and day."""
    log = standing(turn.log)
    found = (_replaced(log, finding) for finding in findings)
    return list(dict.fromkeys(entry for entries in found for entry in entries))


def _replaced(log: Sequence[Entry], finding: Finding) -> list[Entry]:
    same = [e for e in log if _on_one_subject(e, finding) and e.on == finding.on]
    if not same:
        return []
    newest = max(same, key=lambda entry: entry.recorded_at)
    return [entry for entry in same if entry.message == newest.message]


def _on_one_subject(entry: Entry, finding: Finding) -> bool:
    """Tell whether both speak of one subject of the place; a kind without one is its own."""
    if entry.place != finding.place:
        return False
    subject = ENTRY_FACTS[finding.kind].subject
    if subject is None:
        return entry.kind is finding.kind
    return ENTRY_FACTS[entry.kind].subject is subject
