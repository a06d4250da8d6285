"""Values as text in one cell of a table: ``10``, ``sold``, ``syrup_litres=0.946; ratio=1:1``."""

import json
import re

from scheduling.entry_kinds import EntryKind
from scheduling.value_json import Scalar, digits, value_from_json, value_to_json
from scheduling.values import Value

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
