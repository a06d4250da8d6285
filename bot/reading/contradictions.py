"""Findings at one unit that cannot both be true are not recorded; the others count."""

from collections.abc import Iterable, Sequence
from datetime import date
from itertools import combinations

from bot.reading.compose import contradict
from bot.reading.result import Finding, Question, QuestionKind
from bot.reading.told import Told
from scheduling.places import Place


def without_contradictions(
    findings: Sequence[Finding], text: str
) -> tuple[list[Finding], list[Question]]:
    """Take out all findings of a unit that is said to be two things at once, and ask."""
    clashing = _clashing(findings)
    kept = [finding for finding in dict.fromkeys(findings) if finding.place not in clashing]
    questions = [
        Question(QuestionKind.CONTRADICTION, text, (str(place.unit),), tuple(options))
        for place, options in clashing.items()
    ]
    return kept, questions


def _clashing(findings: Iterable[Finding]) -> dict[Place, list[str]]:
    together: dict[tuple[Place, date], list[Finding]] = {}
    for finding in findings:
        if finding.place.unit is not None:
            together.setdefault((finding.place, finding.on), []).append(finding)
    found: dict[Place, list[str]] = {}
    for (place, _), said in together.items():
        for one, other in combinations(said, 2):
            if contradict(_told(one), _told(other)):
                words = [str(kind).replace("_", " ") for kind in (one.kind, other.kind)]
                found.setdefault(place, words)
    return found


def _told(finding: Finding) -> Told:
    return Told(finding.kind, finding.value, finding.note)
