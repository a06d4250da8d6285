"""The one command that checks everything runs all of it, the tests last."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from deploy.environment import PYTHON, RUN, TEST, Checkout
from deploy.gate import TESTS_AT_ONCE

TESTS = f"pytest --numprocesses {TESTS_AT_ONCE} --durations 20 says 0"
TOOLS = ["ruff", "mypy", "lint-imports", "pytest"]


@pytest.fixture
def equipped(checkout: Path) -> Checkout:
    """A checkout set up for tests, each tool saying no more than how it was called."""
    place = Checkout(checkout)
    place.program("python").parent.mkdir(parents=True)
    place.program("python").touch()
    (place.venv / "pyvenv.cfg").write_text(f"version = {PYTHON}.0\n")
    for tool in TOOLS:
        put_tool(place, tool, exit_code=0)
    place.write_stamp(RUN, TEST)
    return place


def put_tool(place: Checkout, tool: str, exit_code: int) -> None:
    place.program(tool).write_text(
        f'#!/bin/sh\necho {tool} "$@" says {exit_code}\nexit {exit_code}\n'
    )
    place.program(tool).chmod(0o755)


def gate(place: Checkout) -> subprocess.CompletedProcess[str]:
    """Run the gate as the submission does, from another folder."""
    this_python = Path(sys.executable).parent
    return subprocess.run(
        ["/bin/bash", str(place.root / ".ci" / "run")],
        cwd=place.root.parent,
        env=os.environ | {"CI": "true", "PATH": f"{this_python}:{os.environ['PATH']}"},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        check=False,
        text=True,
    )


def spoken(stdout: str) -> list[str]:
    return [line for line in stdout.splitlines() if " says " in line]


def test_all_clean_is_exit_0_with_the_tests_last(equipped: Checkout) -> None:
    done = gate(equipped)
    assert done.returncode == 0
    assert spoken(done.stdout) == [
        "ruff check --quiet . says 0",
        "ruff format --check --quiet . says 0",
        "mypy says 0",
        "lint-imports says 0",
        TESTS,
    ]
    assert done.stdout.splitlines()[-1] == TESTS


def test_the_tests_begin_beside_the_static_checks(equipped: Checkout) -> None:
    begun = equipped.root / "begun"
    equipped.program("pytest").write_text(f"#!/bin/sh\ntouch '{begun}'\necho tests done\n")
    waits = f"while [ ! -e '{begun}' ]; do sleep 0.01; done"
    equipped.program("ruff").write_text(f"#!/bin/sh\n{waits}\necho ruff done\n")

    said = gate(equipped).stdout.splitlines()

    assert said.index("ruff done") < said.index("tests done") == len(said) - 1


@pytest.mark.parametrize("tool", TOOLS)
def test_one_that_fails_stops_nothing_and_fails_the_whole(equipped: Checkout, tool: str) -> None:
    put_tool(equipped, tool, exit_code=3)
    done = gate(equipped)
    assert done.returncode == 1
    assert len(spoken(done.stdout)) == 5
    assert done.stdout.splitlines()[-1].startswith("pytest ")


def test_compiled_modules_are_kept_for_the_programs_that_tests_start(
    equipped: Checkout, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PYTHONDONTWRITEBYTECODE", "1")
    equipped.program("pytest").write_text('#!/bin/sh\necho "kept${PYTHONDONTWRITEBYTECODE-}"\n')
    assert gate(equipped).stdout.splitlines()[-1] == "kept"


def test_what_was_not_clean_is_named_before_the_tests(equipped: Checkout) -> None:
    put_tool(equipped, "mypy", exit_code=1)
    assert "Not clean: mypy\n" in gate(equipped).stdout
