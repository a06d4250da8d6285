"""Our timetable against published calendars, every step of each.

The calendars stand in ``fixtures/calendars``, one file each, with institution, title and address.
A step published as one day is held against our best date, the first day of a span against our
earliest and its last day against our latest date. Where we have one date only, it must lie in the
span; where a unit is left alone for the span, it may be left alone for longer. Beside
each step stands the difference that is allowed and the source that explains it.
"""

import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from scheduling.check_kinds import CheckKind
from scheduling.checks.calendar import timetable
from scheduling.checks.check import Check
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.trade.batches import plan_back
from scheduling.trade.constant import days_after
from scheduling.values import CellAge
from tests.scheduling.story import Story, may

CALENDARS = Path(__file__).parents[2] / "fixtures" / "calendars"
GRAFT = date(2023, 4, 14)
"""The graft of the dated example; any day would do."""


@dataclass(frozen=True)
class Ours:
    """Our earliest, best and latest day, counted from the step's start."""

    first: int
    best: int
    last: int


Step = dict[str, Any]


def calendar(name: str) -> dict[str, Any]:
    return tomllib.loads((CALENDARS / name).read_text(encoding="utf-8"))


NAMES = sorted(path.name for path in CALENDARS.glob("*.toml"))
STEPS = [(name, step) for name in NAMES for step in calendar(name)["steps"]]
HELD = [pytest.param(step, id=f"{name}: {step['event']}") for name, step in STEPS if "ours" in step]


def ripe_cell() -> tuple[Check, ...]:
    return timetable(EntryKind.CELL_PLACED, days_after(GRAFT, 10), CellAge(days_since_egg=14))


def three_day_cell() -> tuple[Check, ...]:
    return timetable(EntryKind.CELL_PLACED, days_after(GRAFT, 3), CellAge(days_since_graft=3))


def batch() -> tuple[Check, ...]:
    return timetable(EntryKind.GRAFTED, GRAFT)


def own_queen() -> tuple[Check, ...]:
    return timetable(EntryKind.RAISING_OWN, GRAFT)


def laying_queen() -> tuple[Check, ...]:
    """A queen whose first eggs were seen on the 15th of May."""
    return Story().on(1, EntryKind.CELL_PLACED).on(15, EntryKind.EGGS).checks()


STARTS: dict[str, tuple[Callable[[], tuple[Check, ...]], date]] = {
    "graft": (ripe_cell, GRAFT),
    "egg": (ripe_cell, days_after(GRAFT, -4)),
    "emergence": (ripe_cell, days_after(GRAFT, 12)),
    "ripe cell": (ripe_cell, days_after(GRAFT, 10)),
    "2023-04-14": (three_day_cell, date(2023, 4, 14)),
    "2023-04-25": (three_day_cell, date(2023, 4, 14)),
    "split": (own_queen, GRAFT),
    "eggs": (laying_queen, may(15)),
}
"""What our timetable is asked for, and the day from which the step counts.

A graft four days after the egg and emergence 12 days after the graft, as in the Mississippi and
the Cushman calendar. The second French example is the first, 11 days later.
"""


def the(kind: CheckKind, checks: tuple[Check, ...]) -> Check:
    (found,) = [check for check in checks if check.kind is kind]
    return found


def window(kind: CheckKind, step: Step) -> Ours:
    checks, zero = STARTS[step["start"]]
    check = the(kind, checks())
    assert check.best is not None
    last = check.by or check.best
    return Ours((check.not_before - zero).days, (check.best - zero).days, (last - zero).days)


def only_best(kind: CheckKind, step: Step) -> Ours:
    best = window(kind, step).best
    return Ours(best, best, best)


def emergence(step: Step) -> Ours:
    checks, zero = STARTS[step["start"]]
    out = the(CheckKind.EMERGENCE, checks()).why.about
    assert out is not None
    return single((out - zero).days)


def single(day: int) -> Ours:
    return Ours(day, day, day)


def left_alone(step: Step) -> Ours:
    checks, zero = STARTS[step["start"]]
    rest = [check for check in checks() if check.kind is CheckKind.REST][-1]
    return span(rest, zero)


def not_jolted(step: Step) -> Ours:
    return span(the(CheckKind.REST, batch()), STARTS[step["start"]][1])


def span(rest: Check, zero: date) -> Ours:
    assert rest.by is not None
    first, last = (rest.not_before - zero).days, (rest.by - zero).days
    return Ours(first, first, last)


def hang_loose(step: Step) -> Ours:
    return single(not_jolted(step).first)


def ripe(_step: Step) -> Ours:
    return single((_best(the(CheckKind.CELLS_RIPE, batch())) - GRAFT).days)


def last_ripe(_step: Step) -> Ours:
    by = the(CheckKind.CELLS_RIPE, batch()).by
    assert by is not None
    return single((by - GRAFT).days)


def _best(check: Check) -> date:
    assert check.best is not None
    return check.best


def planned(name: str) -> Callable[[Step], Ours]:
    plan = plan_back(12, date(2027, 6, 10))
    return lambda _step: single((getattr(plan, name) - plan.graft_on).days)


def closed_hours(_step: Step) -> Ours:
    first, last = int(table.CLOSED_FROM_HOUR.value), int(table.CLOSED_UNTIL_HOUR.value)
    return Ours(first, first, last)


OURS: dict[str, Callable[[Step], Ours]] = {
    "graft": lambda _step: single(table.GRAFT_FROM_EGG.days),
    "comb": planned("comb_on"),
    "starter": planned("starter_on"),
    "make-up": planned("make_up_on"),
    "pupae hang loose": hang_loose,
    "cells not jolted": not_jolted,
    "cells ripe": ripe,
    "last day to place cells": last_ripe,
    "emergence": emergence,
    "emergence look": lambda step: window(CheckKind.EMERGENCE, step),
    "left alone": left_alone,
    "laying": lambda step: window(CheckKind.LAYING, step),
    "laying look": lambda step: window(CheckKind.LAYING, step),
    "give up": lambda step: window(CheckKind.GIVE_UP, step),
    "sealed brood look": lambda step: only_best(CheckKind.SEALED_BROOD, step),
    "take": lambda step: only_best(CheckKind.TAKE, step),
    "closed hours": closed_hours,
}


def differences(step: Step) -> tuple[int, int]:
    """Days between the published day and ours, at the first and at the last day of the step."""
    ours = OURS[step["ours"]](step)
    if "day" in step:
        return (abs(ours.best - step["day"]), 0)
    first, last = int(step["first"]), step.get("last")
    to_last = ours.last - int(last) if last is not None else 0
    if step["ours"] == "left alone":
        return (max(0, ours.first - first), max(0, -to_last))
    if ours.first == ours.last:
        return (max(0, first - ours.best), max(0, to_last))
    return (abs(ours.first - first), abs(to_last))


def allowed(step: Step) -> tuple[int, int]:
    days = int(step.get("allowed_days", 0))
    first, last = step.get("allowed_first_days", days), step.get("allowed_last_days", days)
    return (int(first), int(last))


@pytest.mark.parametrize("step", HELD)
def test_a_published_step(step: Step) -> None:
    assert step["because"]
    found, most = differences(step), allowed(step)
    assert found[0] <= most[0]
    assert found[1] <= most[1]


@pytest.mark.parametrize("name", NAMES)
def test_a_calendar_can_be_found_again(name: str) -> None:
    published = calendar(name)
    assert published["address"].startswith("http")
    assert all(published[part] for part in ("institution", "author", "title", "convention"))


def test_there_are_seven_calendars_from_seven_institutions() -> None:
    assert len({calendar(name)["institution"] for name in NAMES}) == len(NAMES) == 7


def test_every_step_is_held_or_says_why_not() -> None:
    told = [("ours" in step, "given" in step, "not_ours" in step) for _name, step in STEPS]
    assert all(sum(one) == 1 for one in told)
    held, given, not_ours = (sum(column) for column in zip(*told, strict=True))
    assert (held, given, not_ours) == (35, 8, 9)


def test_the_two_french_examples_are_the_same_eleven_days_apart() -> None:
    first, second = date(2023, 4, 14), date(2023, 4, 25)
    age = CellAge(days_since_graft=3)
    checks = timetable(EntryKind.CELL_PLACED, days_after(first, 3), age)
    later = timetable(EntryKind.CELL_PLACED, days_after(second, 3), age)
    assert [days_after(check.not_before, 11) for check in checks] == [c.not_before for c in later]


def test_the_largest_differences_are_those_that_were_told() -> None:
    largest = {
        (name, step["event"]): max(differences(step)) for name, step in STEPS if "ours" in step
    }
    assert max(largest.values()) == 7
    assert {key for key, days in largest.items() if days > 3} == {
        ("french_workshop.toml", "see laying from ... to, first example"),
        ("french_workshop.toml", "see laying from ... to, second example"),
        ("french_workshop.toml", "mating"),
    }
