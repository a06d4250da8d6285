"""What the reader must know, gathered from a step."""

from collections.abc import Iterator, Mapping

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
        open_checks=_OpenChecks(step),
        last_said=step.talk.last_said,
        feeder_litres=step.person.feeder_litres,
    )


class _OpenChecks(Mapping[Place, tuple[CheckKind, ...]]):
    """What is due or foreseen at each unit, looked up only where a text speaks of it."""

    def __init__(self, step: Step) -> None:
        self._step = step

    def __getitem__(self, place: Place) -> tuple[CheckKind, ...]:
        return tuple(_kinds(self._step.calendar.checks[place]))

    def __iter__(self) -> Iterator[Place]:
        return iter(self._step.calendar.checks)

    def __len__(self) -> int:
        return len(self._step.calendar.checks)


def _kinds(checks: tuple[Check, ...]) -> list[CheckKind]:
    real = (check.kind for check in checks if check.follows is None)
    return [kind for kind in real if kind is not CheckKind.REST]
