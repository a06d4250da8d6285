"""A toy kind of entry and of check are added by the lists in DEVELOPERS.md, and work throughout."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterable
from pathlib import Path

import pytest

from deploy.standins.program_beside import NO_FILE
from tests.docs.toy_kinds import OF_THE_CHECK, OF_THE_ENTRY, Change

ROOT = Path(__file__).resolve().parents[2]
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
NOT_OF_A_TOY = {
    "scheduling/checks/batch.py",  # it is no check of a batch
    "bot/reading/meaning/finding_values.py",  # no number is said beside it
    "scheduling/colony/unit_make_up.py",  # it brings no bees
}


def listed(title: str) -> set[str]:
    """Give the files and folders of the program that a list names."""
    points = DEVELOPERS.split(f"**{title}**")[1].split("\n**")[0]
    return set(re.findall(r"`((?:bot|scheduling|deploy)/[a-z_/.A-Z]+)`", points))


def touched(changes: Iterable[Change]) -> set[str]:
    return {change.path for change in changes}


def stands_for(path: str, name: str) -> bool:
    """Tell whether a listed name is the path, or its folder."""
    return name == path or (name.endswith("/") and path.startswith(name))


@pytest.mark.parametrize(
    ("title", "changes"),
    [("A kind of check", OF_THE_CHECK), ("A kind of entry", OF_THE_ENTRY)],
)
def test_the_list_names_what_is_touched_and_nothing_else(
    title: str, changes: tuple[Change, ...]
) -> None:
    names, paths = listed(title) - NOT_OF_A_TOY, touched(changes)
    assert len(names) > 5
    assert [path for path in paths if not any(stands_for(path, name) for name in names)] == []
    assert [name for name in names if not any(stands_for(path, name) for path in paths)] == []


@pytest.mark.parametrize("title", ["A kind of check", "A kind of entry"])
def test_what_the_list_names_is_there(title: str) -> None:
    assert [name for name in listed(title) if not (ROOT / name).exists()] == []


def test_what_a_toy_does_not_need_is_still_listed() -> None:
    assert listed("A kind of check") | listed("A kind of entry") >= NOT_OF_A_TOY


@pytest.fixture(scope="module")
def tree(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Copy the program and add both kinds to the copy."""
    folder = tmp_path_factory.mktemp("toy")
    for part in ("bot", "scheduling"):
        shutil.copytree(ROOT / part, folder / part, ignore=shutil.ignore_patterns("__pycache__"))
    (folder / "deploy").mkdir()
    shutil.copy(ROOT / "deploy" / "README.md", folder / "deploy")
    for change in (*OF_THE_ENTRY, *OF_THE_CHECK):
        make(change, folder)
    return folder


def make(change: Change, folder: Path) -> None:
    path = folder / change.path
    text = path.read_text(encoding="utf-8") if path.exists() else ""
    assert change.before in text, f"{change.before!r} stands no more in {change.path}"
    at = text.index(change.before) if change.before else len(text)
    path.write_text(text[:at] + change.lines + text[at:], encoding="utf-8")


def python(tree: Path, words: list[str], typed: str = "") -> str:
    left_out = ("YARDBELL_", "PYTHON")
    kept = {k: v for k, v in os.environ.items() if not k.startswith(left_out)} | NO_FILE
    done = subprocess.run(
        [sys.executable, *words],
        input=typed,
        capture_output=True,
        text=True,
        cwd=tree,
        check=False,
        timeout=120,
        env=kept | {"PYTHONPATH": str(tree), "YARDBELL_DATABASE": f"sqlite:///{tree}/toy.db"},
    )
    assert (done.returncode, done.stderr) == (0, "")
    return done.stdout


def yardbell(tree: Path, *words: str, typed: str = "") -> str:
    return python(tree, ["-c", "from bot.command import main; main()", *words], typed)


def chat(tree: Path, day: str, *lines: str) -> list[str]:
    """Type lines as Ada on a day; gives the answer to each."""
    typed = "".join(f"{line}\n" for line in lines)
    shown = yardbell(tree, "chat", "--as", "Ada", "--on", day, typed=typed)
    answers = [part.partition("Ada < ")[2] for part in shown.split("Ada > ")[1:]]
    return [answer.replace("\n    < ", "\n") for answer in answers if answer]


@pytest.fixture(scope="module")
def first_day(tree: Path) -> list[str]:
    """Set a crew up and tell of cross bees; gives the answers."""
    set_up = ("begin", "new yard River", "boxes 1-4 of 3", "4a-c 10 day cells")
    told = (
        "4a cross bees",
        "oops 4a calm bees",
        "4b cross bees",
        "undo",
        "4b bees cross",
        "4b",
        "4c cross bees",
        "4c skip till 1 june",
    )
    return chat(tree, "2027-05-12", *set_up, *told)[len(set_up) :]


@pytest.fixture(scope="module")
def morning(tree: Path, first_day: list[str]) -> str:
    """Give the morning message two weeks after bees were cross."""
    assert first_day
    return yardbell(tree, "morning", "--for", "Ada", "--on", "2027-05-26")


@pytest.fixture(scope="module")
def second_day(tree: Path, morning: str) -> list[str]:
    """Answer the morning; gives the answers."""
    assert morning
    return chat(tree, "2027-05-26", "all calm bees", "due")


def test_a_reply_is_read_noted_and_answered(first_day: list[str]) -> None:
    assert first_day[0].startswith("Noted: 4a cross bees.\nNext: see if out 4a Sat")


def test_it_can_be_corrected_and_undone(first_day: list[str]) -> None:
    assert first_day[1].startswith("Corrected: 4a calm bees.")
    assert first_day[3].startswith("Undone: 4b cross bees.")


def test_it_is_told_with_its_unit(first_day: list[str]) -> None:
    assert "Last: cross bees, today, Ada" in first_day[5]


def test_a_check_of_the_new_kind_falls_due_where_it_was_not_put_off(morning: str) -> None:
    assert "See their temper 4b (cross Wed 12 May)" in morning


def test_a_reply_about_all_is_for_those_that_are_asked_about(second_day: list[str]) -> None:
    assert second_day[0].startswith("Noted: 4bc calm bees.")
    assert "temper" not in second_day[1]


def test_the_log_can_be_taken_along(tree: Path, second_day: list[str], tmp_path: Path) -> None:
    assert second_day
    log = yardbell(tree, "export", "-")
    assert re.findall(r",(4.),temper_seen,(\w+),", log) == [
        ("4a", "cross"),
        ("4a", "calm"),
        ("4b", "cross"),
        ("4b", "cross"),
        ("4c", "cross"),
        ("4b", "calm"),
        ("4c", "calm"),
    ]


TABLES = """
import importlib, pkgutil, sys
import bot, scheduling
from scheduling.check_kinds import CheckKind
from scheduling.entry_kinds import EntryKind

for package in (bot, scheduling):
    for module in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
        if "migrations" not in module.name:
            importlib.import_module(module.name)
for name, module in sorted(sys.modules.items()):
    for what, held in vars(module).items() if name.startswith(("bot.", "scheduling.")) else ():
        if isinstance(held, dict | set | frozenset | tuple | list):
            for kinds, toy in ((CheckKind, CheckKind.TEMPER), (EntryKind, EntryKind.TEMPER_SEEN)):
                listed = {each for each in held if isinstance(each, kinds)}
                if set(kinds) - listed == {toy}:
                    print(f"{name}.{what}")
"""


def test_no_other_table_lists_every_kind(tree: Path) -> None:
    assert python(tree, ["-c", TABLES]) == ""
