"""Frozen values made in half the time: a calendar of a crew makes some ten thousand of them."""

from collections.abc import Callable
from dataclasses import MISSING, Field, fields
from typing import Any, TypeVar

Value = TypeVar("Value")


def quickly_made(made: type[Value]) -> type[Value]:
    """Let a dataclass, frozen and with slots, fill its slots itself when a value is made.

    What ``dataclass`` writes looks each field up by its name to set it, and spends most of its
    time on that. What can be given, what is checked afterwards and what is refused stay the same.

    Raises:
        TypeError: the class has no slots of its own, or a field that is not simply given.

    """
    given = fields(made)  # type: ignore[arg-type] # any dataclass
    for field in given:
        if not field.init or field.kw_only or field.default_factory is not MISSING:
            raise TypeError(f"{made.__name__}.{field.name} is not simply given")
    made.__init__ = _filling(made, given)  # type: ignore[method-assign] # the same, only sooner
    return made


def _filling(made: type, given: tuple[Field[Any], ...]) -> Callable[..., None]:
    """Write the function that ``dataclass`` would write, with the slot itself for each name."""
    known: dict[str, Any] = {"__name__": made.__module__}
    for field in given:
        known[f"_set_{field.name}"] = _slot(made, field.name)
        known[f"_usual_{field.name}"] = field.default
    checked = ["self.__post_init__()"] if hasattr(made, "__post_init__") else []
    lines = [f"_set_{field.name}(self, {field.name})" for field in given] + checked
    parameters = ", ".join(["self", *map(_parameter, given)])
    exec(f"def __init__({parameters}):\n " + "\n ".join(lines), known)  # noqa: S102 - own text
    written: Callable[..., None] = known["__init__"]
    written.__qualname__ = f"{made.__qualname__}.__init__"
    written.__annotations__ = {field.name: field.type for field in given} | {"return": None}
    return written


def _slot(made: type, name: str) -> Callable[[object, object], None]:
    if name not in made.__dict__.get("__slots__", ()):
        raise TypeError(f"{made.__name__} has no slot for {name}")
    fill: Callable[[object, object], None] = getattr(made, name).__set__
    return fill


def _parameter(field: Field[Any]) -> str:
    return field.name if field.default is MISSING else f"{field.name}=_usual_{field.name}"
