"""The locks hold every package by hash, for each Python and system, and name no place to get it.

What a line means is decided by ``packaging``, the reference implementation of the standards for
version specifiers and environment markers (PEP 440 and PEP 508).
"""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement

ROOT = Path(__file__).resolve().parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())
LOCKS = ["requirements.lock", "requirements-postgresql.lock", "requirements-test.lock"]
SYSTEMS = {"linux": "Linux", "darwin": "Darwin", "win32": "Windows"}


def entries(name: str) -> dict[str, tuple[Requirement, int]]:
    """Return each locked package with the number of its hashes."""
    text = (ROOT / "deploy" / name).read_text().replace("\\\n", " ")
    lines = [line for line in text.splitlines() if line and not line.lstrip().startswith("#")]
    found = {}
    for line in lines:
        requirement = Requirement(line.split("--hash=")[0])
        found[plain(requirement.name)] = (
            requirement,
            len(re.findall(r"sha256:[0-9a-f]{64}", line)),
        )
    return found


def plain(name: str) -> str:
    """Return a package's name as the standard compares it (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def asked_for(name: str) -> list[Requirement]:
    asked = PROJECT["project"]["dependencies"] + PROJECT["dependency-groups"]["build"]
    if name == "requirements-test.lock":
        asked = asked + PROJECT["dependency-groups"]["test"]
    if name == "requirements-postgresql.lock":
        asked = asked + PROJECT["project"]["optional-dependencies"]["postgresql"]
    return [Requirement(each) for each in asked]


@pytest.mark.parametrize("name", LOCKS)
def test_every_package_is_exact_and_has_hashes(name: str) -> None:
    for requirement, hashes in entries(name).values():
        assert [each.operator for each in requirement.specifier] == ["=="]
        assert hashes > 0


@pytest.mark.parametrize("name", LOCKS)
def test_no_address_stands_in_a_lock(name: str) -> None:
    text = (ROOT / "deploy" / name).read_text()
    assert "://" not in text
    assert "index" not in text


@pytest.mark.parametrize("name", LOCKS)
def test_what_the_project_asks_for_is_locked_in_a_version_that_it_allows(name: str) -> None:
    locked = entries(name)
    for asked in asked_for(name):
        requirement, _ = locked[plain(asked.name)]
        version = next(iter(requirement.specifier)).version
        assert asked.specifier.contains(version, prereleases=True)


@pytest.mark.parametrize("python", ["3.11", "3.12", "3.13"])
@pytest.mark.parametrize("system", SYSTEMS)
def test_all_of_it_is_installed_on_each_python_and_system(python: str, system: str) -> None:
    around = {
        "python_version": python,
        "python_full_version": f"{python}.0",
        "sys_platform": system,
        "platform_system": SYSTEMS[system],
    }
    locked = entries("requirements-test.lock")
    for asked in asked_for("requirements-test.lock"):
        marker = locked[plain(asked.name)][0].marker
        assert marker is None or marker.evaluate(around)


def test_tests_run_on_the_very_versions_that_run() -> None:
    tested = entries("requirements-test.lock")
    for name, (requirement, hashes) in entries("requirements-postgresql.lock").items():
        assert tested[name] == (requirement, hashes)


def test_the_driver_of_postgresql_comes_on_top_of_what_runs() -> None:
    run, driven = entries("requirements.lock"), entries("requirements-postgresql.lock")
    assert driven == run | driven
    assert driven.keys() - run.keys() == {"psycopg", "psycopg-binary"}
