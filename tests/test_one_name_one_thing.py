"""A name of a file, a class or a public function means one thing in the whole program.

Whoever searches for a name finds the one thing that it names.
"""

import ast
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import bot
import scheduling

SOURCES = [
    file
    for package in (bot, scheduling)
    for file in sorted(Path(package.__file__ or "").parent.rglob("*.py"))
    if "migrations" not in file.parts
]

IN_EVERY_PACKAGE = {"__init__", "__main__"}
OF_EVERY_CARRIER = {"channel"}
"""``channels/channel.py`` is the protocol, and each carrier's ``channel.py`` follows it."""


def twice(names: Iterator[str]) -> set[str]:
    """The names that are there more than once."""
    return {name for name, count in Counter(names).items() if count > 1}


def defined(kinds: tuple[type[ast.stmt], ...]) -> Iterator[str]:
    """The names of what the files define for others, by kinds of definition."""
    for file in SOURCES:
        for node in ast.parse(file.read_text(encoding="utf-8")).body:
            if isinstance(node, kinds):
                yield getattr(node, "name", "")


def test_a_name_of_a_file_means_one_thing() -> None:
    assert len(SOURCES) > 200
    assert twice(file.stem for file in SOURCES) - IN_EVERY_PACKAGE == OF_EVERY_CARRIER


def test_a_name_of_a_class_means_one_thing() -> None:
    assert twice(defined((ast.ClassDef,))) == set()


def test_a_name_of_a_public_function_means_one_thing() -> None:
    functions = defined((ast.FunctionDef, ast.AsyncFunctionDef))

    assert twice(name for name in functions if not name.startswith("_")) == set()
