"""What a person is told after a reply: what was understood, what comes next, how to undo."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from bot.channels.channel import Button
from bot.reading.result import Finding
from bot.wording.check_names import to_do
from bot.wording.days_and_numbers import day_words, full_day
from bot.wording.findings import finding_words
from bot.wording.message import Message
from bot.wording.place_names import place_words
from bot.wording.plain_letters import to_gsm7
from bot.wording.yard_lines import due_words
from scheduling.check_kinds import UPKEEP, CheckKind
from scheduling.checks.check import Check, expired
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName

YardUnits = Mapping[str, Sequence[UnitName]]
"""The units of each yard of the crew, by the yard's name."""

UNDO = ((Button("undo", "undo"),),)


_SERVED: dict[EntryKind, frozenset[CheckKind]] = {
    kind: facts.answers
    for kind, facts in ENTRY_FACTS.items()
    if facts.answers and facts.answers <= UPKEEP
}
"""After these the keeper wants to know when the same is due again."""


def answered(
    findings: Sequence[Finding],
    checks: Iterable[Check],
    questions: Sequence[str],
    today: date,
    yards: YardUnits,
    *,
    corrects: bool = False,
    moved: Sequence[Check] | None = None,
) -> Message:
    """Answer a reply.

    ``checks`` are all checks and rests after the reply was recorded; ``questions`` are already
    in words. Without findings only the questions are asked. ``moved`` are the checks that a word
    on the weather moved; for anything else it is None, and what comes next is said.
    """
    if not findings:
        return Message((to_gsm7("\n".join(questions)),))
    verb = "Corrected" if corrects else "Noted"
    noted = f"{verb}: {findings_words(findings, today, yards)}."
    lines = [
        noted,
        *(
            _next_line(findings, checks, today, yards)
            if moved is None
            else _moved(moved, today, yards)
        ),
        *questions,
        "undo takes it back.",
    ]
    return Message((to_gsm7("\n".join(lines)),), UNDO, pressed=to_gsm7(noted))


def undone(
    findings: Sequence[Finding], checks: Iterable[Check], today: date, yards: YardUnits
) -> str:
    """Say what an undo took back and what is due now that it never counted."""
    lines = [
        f"Undone: {findings_words(findings, today, yards)}. The log keeps both.",
        *_next_line(findings, checks, today, yards),
    ]
    return to_gsm7("\n".join(lines))


def taken_back() -> str:
    """Stand under an answer whose undo was pressed."""
    return "Taken back."


def noted_by_another(
    person: str, findings: Sequence[Finding], today: date, yards: YardUnits
) -> str:
    """Tell the others in the yard what one of them noted."""
    return to_gsm7(f"{person} noted: {findings_words(findings, today, yards)}.")


def findings_words(findings: Iterable[Finding], today: date, yards: YardUnits) -> str:
    """``4a-c eggs; 5b no eggs``; each yard's name once, before its own, if there are several."""
    said: dict[tuple[str, date, str], list[Finding]] = {}
    for finding in findings:
        words = finding_words(finding.kind, finding.value, finding.note)
        said.setdefault((finding.place.yard, finding.on, words), []).append(finding)
    order = list(dict.fromkeys(yard for yard, _, _ in said))
    pieces, yard_said = [], ""
    for (yard, on, words), found in sorted(said.items(), key=lambda item: order.index(item[0][0])):
        piece = _said(on, words, found, today, yards.get(yard, ()))
        named = yard_said != yard and (len(yards) > 1 or not _within(found))
        pieces.append(f"{yard} {piece}" if named else piece)
        yard_said = yard
    return to_gsm7("; ".join(pieces))


def _said(
    on: date, words: str, found: Sequence[Finding], today: date, units: Sequence[UnitName]
) -> str:
    names = place_words(_within(found), units)
    when = "" if on == today or found[0].kind is EntryKind.PUT_OFF else f" ({full_day(on)})"
    return f"{names} {words}{when}".strip()


def _within(found: Sequence[Finding]) -> list[Place]:
    """The units and batches among the places; not yards as a whole."""
    return [finding.place for finding in found if finding.place.unit or finding.place.batch]


def _moved(moved: Sequence[Check], today: date, yards: YardUnits) -> list[str]:
    """``Moved: look for eggs 1a-c to Thu 13 May``; or that nothing waits for a flight."""
    by_day: dict[tuple[str, date], list[Check]] = {}
    for check in moved:
        if check.best is not None:
            by_day.setdefault((check.place.yard, check.best), []).append(check)
    if not by_day:
        return ["No check moves."]
    said = (
        f"{due_words(found, yards.get(yard, ()), yard, today)} to {day_words(day, today)}"
        for (yard, day), found in sorted(by_day.items(), key=lambda item: item[0][::-1])
    )
    return [f"Moved: {'; '.join(said)}."]


def _next_line(
    findings: Sequence[Finding], checks: Iterable[Check], today: date, yards: YardUnits
) -> list[str]:
    return [f"Next: {next_steps(findings, checks, today, yards)}."]


@dataclass(frozen=True)
class NextStep:
    """The next thing at a place, and until when it is left alone before."""

    label: str
    best: date
    alone_to: date | None


def next_steps(
    findings: Sequence[Finding],
    checks: Iterable[Check],
    today: date,
    yards: Mapping[str, Sequence[UnitName]],
) -> str:
    """``look for sealed brood 4a-c Thu 21 May; give a cell 5b tomorrow``, soonest first."""
    kinds: dict[Place, list[EntryKind]] = {}
    for finding in findings:
        kinds.setdefault(finding.place, []).append(finding.kind)
    known = [check for check in checks if check.place in kinds or Place(check.place.yard) in kinds]
    steps: dict[tuple[str, NextStep | None], list[Place]] = {}
    for place, said in kinds.items():
        for at, step in _steps_at(place, said, known, today):
            steps.setdefault((at.yard, step), []).append(at)
    ordered = sorted(steps.items(), key=lambda item: item[0][1].best if item[0][1] else date.max)
    several = len({yard for yard, _ in steps}) > 1
    return "; ".join(
        _words(yard if several else "", step, places, today, yards.get(yard, ()))
        for (yard, step), places in ordered
    )


def _steps_at(
    place: Place, said: Sequence[EntryKind], known: Sequence[Check], today: date
) -> list[tuple[Place, NextStep | None]]:
    here = [check for check in known if check.place == place]
    if place.unit is None and place.batch is None:
        here = [check for check in known if check.place.yard == place.yard]
        return _soonest_of_yard(here, today) or [(place, None)]
    return [(place, _step(here, said, today))]


def _soonest_of_yard(here: Sequence[Check], today: date) -> list[tuple[Place, NextStep | None]]:
    steps = [
        (place, _step([c for c in here if c.place == place], (), today))
        for place in dict.fromkeys(check.place for check in here)
    ]
    real = [(place, step) for place, step in steps if step is not None]
    first = min((step.best for _, step in real), default=None)
    return [(place, step) for place, step in real if step.best == first]


def _step(here: Sequence[Check], said: Sequence[EntryKind], today: date) -> NextStep | None:
    open_checks = [c for c in here if c.best and c.follows is None and not expired(c, today)]
    wanted = {check for kind in said for check in _SERVED.get(kind, ())}
    upkeep_only = bool(wanted) and all(kind in _SERVED for kind in said)
    for choice in (wanted,) if upkeep_only else (set(CheckKind) - UPKEEP, set(CheckKind)):
        found = [check for check in open_checks if check.kind in choice]
        if found:
            return _as_step(min(found, key=_best), here, today)
    return None


def _best(check: Check) -> date:
    return check.best or check.not_before


def _as_step(check: Check, here: Sequence[Check], today: date) -> NextStep:
    rests = [
        rest.by
        for rest in here
        if rest.kind is CheckKind.REST
        and rest.by is not None
        and rest.not_before <= today + timedelta(days=1)
        and today < rest.by < _best(check)
    ]
    alone_to = None if check.kind in UPKEEP else max(rests, default=None)
    return NextStep(to_do(check.kind, check.why), _best(check), alone_to)


def _words(
    yard: str,
    step: NextStep | None,
    places: Sequence[Place],
    today: date,
    units: Sequence[UnitName],
) -> str:
    names = f"{yard} {place_words(places, units)}".strip()
    if step is None:
        return f"nothing more due {names}"
    when = day_words(max(step.best, today), today)
    alone = "" if step.alone_to is None else f", leave alone to {day_words(step.alone_to, today)}"
    return f"{step.label} {names} {when}{alone}"
