"""What happens next at the places somebody just spoke of."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from bot.reading.result import Finding
from bot.wording.check_names import to_do
from bot.wording.day_names import day_words
from bot.wording.place_names import place_words
from scheduling.check_kinds import UPKEEP, CheckKind
from scheduling.checks.check import Check, expired
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.places import Place, UnitName

_SERVED: dict[EntryKind, frozenset[CheckKind]] = {
    kind: facts.answers
    for kind, facts in ENTRY_FACTS.items()
    if facts.answers and facts.answers <= UPKEEP
}
"""After these the keeper wants to know when the same is due again."""


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
