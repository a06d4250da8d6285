"""The licence of every library that runs is named, as its own package tells it."""

import re
from importlib import metadata
from pathlib import Path

ROOT = Path(__file__).parents[2]
LOCK = (ROOT / "deploy" / "requirements-postgresql.lock").read_text()
OPERATORS = (ROOT / "deploy" / "README.md").read_text()

BY_CLASSIFIER = {"GNU Lesser General Public License v3 (LGPLv3)": "LGPL-3.0"}
"""For a package that tells its licence in no other way."""


def told_by_package(name: str) -> str:
    told = metadata.metadata(name)
    classes = [each.rpartition(" :: ")[2] for each in told.get_all("Classifier", [])]
    named = [BY_CLASSIFIER[each] for each in classes if each in BY_CLASSIFIER]
    return str(told["License-Expression"] or told["License"] or named[0])


def told_by_us() -> dict[str, str]:
    rows = OPERATORS.partition("Licence | packages\n---|---\n")[2].splitlines()
    named = [row.split(" | ") for row in rows if " | " in row]
    return {name: licence for licence, names in named for name in names.split(", ")}


def test_each_library_stands_under_its_licence() -> None:
    shipped = re.findall(r"^([a-z0-9-]+)==", LOCK, re.MULTILINE)

    assert len(shipped) > 30
    assert told_by_us() == {name: told_by_package(name) for name in shipped}
