"""What the reader must know, gathered from a step."""

from bot.desk.step import Step
from bot.reading.situation import Situation, YardUnits
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Check
from scheduling.places import Place


def situation_of(step: Step) -> Situation:
    """The situation in which the step's message was written."""
    return Situation(
        today=step.today,
        yards=tuple(YardUnits(name, tuple(units)) for name, units in step.units.items()),
        current_yard=step.current_yard,
        open_checks=lambda: _open_checks(step),
        last_said=step.talk.last_said,
        feeder_litres=step.person.feeder_litres,
    )


def _open_checks(step: Step) -> dict[Place, tuple[CheckKind, ...]]:
    return {place: tuple(_kinds(checks)) for place, checks in step.calendar.checks.items()}


def _kinds(checks: tuple[Check, ...]) -> list[CheckKind]:
    real = (check.kind for check in checks if check.follows is None)
    return [kind for kind in real if kind is not CheckKind.REST]
