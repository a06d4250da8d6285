"""What a person is told after a reply: what was understood, what comes next, how to undo."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from bot.channels.channel import Button
from bot.reading.result import Finding
from bot.wording.day_names import day_words, full_day
from bot.wording.findings import finding_words
from bot.wording.message import Message
from bot.wording.next_steps import next_steps
from bot.wording.place_names import place_words
from bot.wording.plain_letters import to_gsm7
from bot.wording.yard_lines import due_words
from scheduling.checks.check import Check
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName

YardUnits = Mapping[str, Sequence[UnitName]]
"""The units of each yard of the crew, by the yard's name."""

UNDO = ((Button("undo", "undo"),),)


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
    lines = [
        f"{verb}: {findings_words(findings, today, yards)}.",
        *(
            _next_line(findings, checks, today, yards)
            if moved is None
            else _moved(moved, today, yards)
        ),
        *questions,
        "undo takes it back.",
    ]
    return Message((to_gsm7("\n".join(lines)),), UNDO)


def undone(
    findings: Sequence[Finding], checks: Iterable[Check], today: date, yards: YardUnits
) -> str:
    """Say what an undo took back and what is due now that it never counted."""
    lines = [
        f"Undone: {findings_words(findings, today, yards)}. The log keeps both.",
        *_next_line(findings, checks, today, yards),
    ]
    return to_gsm7("\n".join(lines))


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
