"""Every fact that the program tells its log is one that the log shows."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import bot
import scheduling
from bot.program_log import FACTS

LEVELS = {"debug", "info", "warning", "error", "exception", "critical", "log"}
STRUCTURE = {"exc_info"}
"""What a call may name besides facts: how the record itself is made."""


def sources() -> list[Path]:
    """Every module of the program."""
    folders = [Path(package.__file__ or "").parent for package in (bot, scheduling)]
    return sorted(file for folder in folders for file in folder.rglob("*.py"))


def log_calls(source: str) -> Iterator[ast.Call]:
    """The calls of a module's own log, which every module names ``log``."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            owner = node.func.value
            if isinstance(owner, ast.Name) and owner.id == "log" and node.func.attr in LEVELS:
                yield node


def facts_named(source: str) -> set[str | None]:
    """The names of the facts that a module tells; None for names that only a run would show."""
    return {word.arg for call in log_calls(source) for word in call.keywords} - STRUCTURE


@pytest.mark.parametrize("file", sources(), ids=lambda file: file.stem)
def test_a_module_tells_only_facts_that_the_log_shows(file: Path) -> None:
    source = file.read_text(encoding="utf-8")

    assert facts_named(source) - set(FACTS) == set()


def test_the_facts_of_every_module_are_looked_at() -> None:
    told = [fact for file in sources() for fact in facts_named(file.read_text(encoding="utf-8"))]

    assert {"channel", "error", "number", "said", "tick"} <= set(told)


def test_a_log_has_one_name_in_every_module() -> None:
    made = [
        (file.name, ast.unparse(node.targets[0]))
        for file in sources()
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.Assign) and ast.unparse(node.value).startswith("log_of(")
    ]

    assert made
    assert {name for _file, name in made} == {"log"}


def test_a_fact_of_no_list_is_found() -> None:
    assert facts_named('log.info("sent", channel="sms", used=3, **more)') == {
        "channel",
        "used",
        None,
    }
