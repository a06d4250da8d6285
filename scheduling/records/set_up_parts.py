"""The parts of a crew's set-up by name: the crew, a person, each yard ("yard 3") and its units."""

from collections.abc import Mapping
from typing import Any

CREW, PERSON, YARD, UNITS = "crew", "person", "yard", "units"

Parts = Mapping[str, Mapping[str, tuple[Any, Any]]]
"""By part and field what it was and what it became; None where there was none. A unit is a field
that is True."""


def is_made(fields: Mapping[str, tuple[Any, Any]]) -> bool:
    """Tell whether a yard's fields changed because it was made."""
    return "name" in fields and fields["name"][0] is None
