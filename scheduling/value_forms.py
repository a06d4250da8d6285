"""Values in plain form, for the database and JSON, and as text in one cell of a table.

A value with only its first field set is that one number or word; with others set it is a mapping
of field names, in a cell ``syrup_litres=0.946; ratio=1:1``. Both forms lead back to the same value.
"""

import json
import math
import re
from collections.abc import Callable, Mapping
from dataclasses import MISSING, fields
from datetime import date
from decimal import Decimal
from enum import StrEnum
from functools import cache
from types import NoneType
from typing import Any, cast, get_args, get_type_hints

from scheduling.entries import check_value
from scheduling.entry_facts import ENTRY_FACTS
from scheduling.entry_kinds import EntryKind
from scheduling.values import CellAge, Value

Scalar = int | float | str
Plain = None | Scalar | dict[str, Scalar]

_NUMBER = re.compile(r"\d+(\.\d+)?|\.\d+")
_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_LARGEST_EXACT_WHOLE = 2**53


def value_to_json(value: Value | None) -> Plain:
    """Put the value as numbers, words and at most one mapping; dates as ``2027-05-12``."""
    if value is None:
        return None
    if isinstance(value, CellAge):
        return _plain_age(value)
    names = [field.name for field in fields(value)]
    known = {name: _scalar(part) for name in names if (part := getattr(value, name)) is not None}
    return known[names[0]] if list(known) == names[:1] else known


def value_from_json(kind: EntryKind, form: Plain) -> Value | None:
    """Make the value of an entry of this kind from the form that ``value_to_json`` gives.

    Numbers and dates may also be given as text.

    Raises:
        ValueError: it cannot be a value of this kind; the message says why.
    """
    value = None if form is None else _made(kind, form)
    check_value(kind, value)
    return value


def digits(number: float) -> str:
    """Write a number out in full, without an exponent; read back it is the same number."""
    return format(Decimal(repr(number)), "f")


def _plain_age(age: CellAge) -> Scalar:
    if age.days_since_egg is None:
        return _scalar(age.days_since_graft)
    return f"{digits(cast('float', _scalar(age.days_since_egg)))}e"


def _scalar(part: object) -> Scalar:
    if isinstance(part, date):
        return part.isoformat()
    if isinstance(part, float) and part.is_integer() and abs(part) < _LARGEST_EXACT_WHOLE:
        return int(part)
    return str(part) if isinstance(part, StrEnum) else cast("Scalar", part)


def _made(kind: EntryKind, form: Scalar | dict[str, Scalar]) -> Value:
    made_of: Any = ENTRY_FACTS[kind].value
    if made_of is None:
        raise ValueError(f"{kind} carries no value, so {form!r} cannot stand there")
    if made_of is CellAge:
        return _age(form)
    readers = _readers(made_of)
    parts = form if isinstance(form, dict) else {next(iter(readers)): form}
    _check_names(kind, made_of, parts)
    return cast("Value", made_of(**{n: readers[n](n, part) for n, part in parts.items()}))


def _check_names(kind: EntryKind, made_of: Any, parts: Mapping[str, Scalar]) -> None:
    possible = _readers(made_of)
    strange = [name for name in parts if name not in possible]
    if strange:
        raise ValueError(f"{kind} has no {strange[0]}; it may have {', '.join(possible)}")
    missing = [name for name in _needed(made_of) if name not in parts]
    if missing:
        raise ValueError(f"{kind} needs its {missing[0]}")


def _age(form: Scalar | dict[str, Scalar]) -> CellAge:
    if isinstance(form, dict):
        raise ValueError("a cell's age is one number: days since the graft, or as 14e")
    if isinstance(form, str):
        return CellAge.parse(form)
    return CellAge(days_since_graft=_number("days_since_graft", form))


Reader = Callable[[str, Scalar], object]


@cache
def _readers(made_of: Any) -> dict[str, Reader]:
    hints = get_type_hints(made_of)
    return {field.name: _reader(hints[field.name]) for field in fields(made_of)}


@cache
def _needed(made_of: Any) -> tuple[str, ...]:
    return tuple(field.name for field in fields(made_of) if field.default is MISSING)


def _reader(hint: object) -> Reader:
    known = [arm for arm in get_args(hint) or (hint,) if arm is not NoneType]
    made_of = cast("type", known[0])
    if issubclass(made_of, StrEnum):
        return lambda name, form: _member(made_of, name, form)
    return _READERS[made_of]


def _number(name: str, form: Scalar) -> float:
    if isinstance(form, str) and not _NUMBER.fullmatch(form):
        raise ValueError(f"{name} must be a number such as 0.5, not {form!r}")
    number = float(form)
    if isinstance(form, bool) or not math.isfinite(number) or number < 0:
        raise ValueError(f"{name} must be a number from 0 up, not {form!r}")
    if name.endswith("_share") and number > 1:
        raise ValueError(f"{name} must be from 0 to 1, not {form!r}")
    return number


def _count(name: str, form: Scalar) -> int:
    if isinstance(form, str) and form.isdecimal():
        return int(form)
    number = _number(name, form)
    if not number.is_integer():
        raise ValueError(f"{name} must be a whole number, not {form!r}")
    return form if isinstance(form, int) else int(number)


def _text(_name: str, form: Scalar) -> str:
    return str(form)


def _day(name: str, form: Scalar) -> date:
    try:
        if _DAY.fullmatch(str(form)):
            return date.fromisoformat(str(form))
    except ValueError:
        pass
    raise ValueError(f"{name} must be a day such as 2027-05-12, not {form!r}")


def _member(members: type[StrEnum], name: str, form: Scalar) -> StrEnum:
    try:
        return members(str(form))
    except ValueError:
        raise ValueError(f"{name} must be one of {', '.join(members)}, not {form!r}") from None


_READERS: dict[type, Reader] = {float: _number, int: _count, str: _text, date: _day}


_NOTHING_SET = "?"
"""Text of a value whose every field is unknown."""

_PAIRS = re.compile(r"\s*[a-z_]+\s*=")
_PAIR = re.compile(r'\s*(?P<name>[a-z_]+)\s*=\s*(?P<text>"(?:[^"\\]|\\.)*"|[^";]*)(?:;|$)')


def value_to_text(value: Value | None) -> str:
    """Put the value as one line of text; nothing for None."""
    form = value_to_json(value)
    if form is None:
        return ""
    if not isinstance(form, dict):
        return _words(form)
    return "; ".join(f"{name}={_words(part)}" for name, part in form.items()) or _NOTHING_SET


def value_from_text(kind: EntryKind, text: str) -> Value | None:
    """Make the value of an entry of this kind from text as ``value_to_text`` gives it.

    Raises:
        ValueError: it cannot be a value of this kind; the message says why.
    """
    text = text.strip()
    if not text:
        return value_from_json(kind, None)
    if text == _NOTHING_SET:
        return value_from_json(kind, {})
    return value_from_json(kind, _pairs(text) if _PAIRS.match(text) else _unquoted(text))


def _words(form: Scalar) -> str:
    if isinstance(form, str):
        if _needs_no_quotes(form):
            return form
        return json.dumps(form, ensure_ascii=not form.isprintable())
    return digits(form)


def _needs_no_quotes(text: str) -> bool:
    bare = text and text == text.strip() and text != _NOTHING_SET
    return bool(bare) and text.isprintable() and not set(text) & set('";=\\')


def _unquoted(text: str) -> str:
    if not text.startswith('"'):
        return text.strip()
    try:
        return str(json.loads(text))
    except json.JSONDecodeError:
        raise ValueError(f"the quotes in {text} do not close as they should") from None


def _pairs(text: str) -> dict[str, Scalar]:
    pairs: dict[str, Scalar] = {}
    at = 0
    while text[at:].strip():
        found = _PAIR.match(text, at)
        if found is None:
            raise ValueError(f"{text[at:].strip()!r} is not of the form name=value; name=value")
        if found["name"] in pairs:
            raise ValueError(f"{found['name']} is given twice")
        pairs[found["name"]] = _unquoted(found["text"])
        at = found.end()
    return pairs
