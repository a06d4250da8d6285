"""What the reader must know, gathered from a step."""

from bot.conversation.turn import Turn
from bot.reading.situation import Situation, YardUnits
from scheduling.check_kinds import CheckKind
from scheduling.checks.check import Check
from scheduling.places import Place


def situation_of(turn: Turn) -> Situation:
    """The situation in which the step's message was written."""
    return Situation(
        today=turn.today,
        yards=tuple(YardUnits(name, tuple(units)) for name, units in turn.units.items()),
        current_yard=turn.current_yard,
        open_checks=lambda: _open_checks(turn),
        last_said=turn.state.last_said,
        feeder_litres=turn.person.feeder_litres,
    )


def _open_checks(turn: Turn) -> dict[Place, tuple[CheckKind, ...]]:
    return {place: tuple(_kinds(checks)) for place, checks in turn.calendar.checks.items()}


def _kinds(checks: tuple[Check, ...]) -> list[CheckKind]:
    real = (check.kind for check in checks if check.follows is None)
    return [kind for kind in real if kind is not CheckKind.REST]
