"""What the README says is what the program does."""

import re
from pathlib import Path

import pytest

from bot.command.group import cli
from scheduling.entry_kinds import EntryKind
from scheduling.trade import table
from scheduling.trade.constant import Constant

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
DATES = (ROOT / "scheduling" / "README.md").read_text(encoding="utf-8")
OPERATORS = (ROOT / "deploy" / "README.md").read_text(encoding="utf-8")
TESTERS = (ROOT / "tests" / "README.md").read_text(encoding="utf-8")
PROJECT = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
DOCUMENTS = (
    "README.md",
    "DEVELOPERS.md",
    "bot/README.md",
    "scheduling/README.md",
    "deploy/README.md",
    "deploy/CHANGES.md",
    "tests/README.md",
)

ROWS = {
    "the graft | ripe cells go in": table.RIPE_LOOK_FROM_GRAFT,
    "the graft | see if she is out": table.EMERGENCE_LOOK_FROM_GRAFT,
    "her emergence | eggs": table.LAYING_LOOK_FROM_EMERGENCE,
    "a look without eggs | eggs once more": table.LOOK_AGAIN,
    "her emergence, no eggs | last look, then given up": table.GIVE_UP_FROM_EMERGENCE,
    "a caged queen placed | cage": table.RELEASE_LOOK,
    "her release | eggs": table.LAYING_LOOK_FROM_RELEASE,
    "a unit left to raise its own | eggs": table.OWN_LAYING_LOOK,
    "eggs seen | sealed brood": table.SEALED_BROOD_LOOK,
    "eggs seen, brood good | she may be taken": table.TAKE_FROM_EGGS,
    "the last open brood | laying workers likely": table.LAYING_WORKERS,
    "food seen or given | food": table.FEED_LOOK,
    "trap set or emptied | empty it": table.TRAP_SERVICE,
}


@pytest.mark.parametrize(("row", "figure"), ROWS.items())
def test_the_table_of_days_is_the_trade_table(row: str, figure: Constant) -> None:
    assert f"\n{row} | {figure.low:g} | {figure.value:g} | {figure.high:g} | " in DATES


def test_every_kind_of_entry_is_named() -> None:
    assert [kind for kind in EntryKind if f"`{kind}`" not in OPERATORS] == []


def test_every_command_is_named() -> None:
    commands = cli.list_commands(cli.make_context("yardbell", [], resilient_parsing=True))

    assert [name for name in commands if not re.search(rf"\byardbell {name}\b", OPERATORS)] == []


def test_the_conversation_is_what_the_demo_says(demo_conversation: str) -> None:
    shown = README.split("```\nAda < ")[1].split("```")[0].splitlines()[1:]

    played = {line.strip() for line in demo_conversation.splitlines()}
    assert [line for line in shown if line.strip() not in played] == []


def test_the_picture_is_what_the_demo_says(demo_conversation: str) -> None:
    from deploy.picture import MESSAGES, OWNER, PICTURE, bubbles, picture

    drawn = picture(bubbles(demo_conversation, OWNER, MESSAGES))
    assert PICTURE.read_text(encoding="utf-8") == drawn


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_file_that_a_document_points_to_is_there(document: str) -> None:
    text, folder = (ROOT / document).read_text(encoding="utf-8"), (ROOT / document).parent
    named = re.findall(r"\]\(([^)#]+)\)", text)

    assert [name for name in named if "://" not in name and not (folder / name).exists()] == []


def test_the_version_has_its_changes() -> None:
    version = re.search(r'^version = "(.+)"', PROJECT, re.MULTILINE)
    newest = re.search(r"^## (.+)$", (ROOT / "deploy" / "CHANGES.md").read_text(), re.MULTILINE)

    assert version is not None
    assert newest is not None
    assert newest[1] == version[1]


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_path_that_a_document_names_is_there(document: str) -> None:
    text = (ROOT / document).read_text(encoding="utf-8")
    named = re.findall(r"`((?:bot|scheduling|tests|deploy|fixtures)/[\w/.-]+)`", text)

    assert [name for name in named if not (ROOT / name).exists()] == []


def test_every_dependency_has_its_reason() -> None:
    to_run, to_test = _dependencies().split("[dependency-groups]")

    assert len(_names(to_run)) > 10
    assert len(_names(to_test)) > 10
    assert [name for name in _names(to_run) if f"**{name}**" not in DEVELOPERS] == []
    told = DEVELOPERS + TESTERS
    assert [name for name in _names(to_test) if f"**{name}**" not in told] == []


def _names(dependencies: str) -> list[str]:
    return re.findall(r'"([a-z0-9-]+)[>=<\["]', dependencies)


def _dependencies() -> str:
    return PROJECT.split("dependencies = [")[1].split("[project.scripts]")[0]
