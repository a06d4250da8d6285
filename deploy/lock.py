"""Remake the three locks from pyproject.toml: ``python3 deploy/lock.py [PACKAGE ...]``.

Needs the resolver ``uv`` on the path. Versions already locked are kept unless their package is
named, or ``--all`` is given. The locks hold no address: pip and uv ask the index that the machine
is set up for, and the hashes prove that it gave the same files.
"""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

HEAD = """\
# {subject}, exact and by hash, for Python 3.11 and newer.
# Made from pyproject.toml by: python3 deploy/lock.py
"""

COMPILE = [
    *("uv", "pip", "compile", "pyproject.toml", "--group", "build"),
    *("--universal", "--python-version", "3.11", "--generate-hashes"),
    *("--no-header", "--no-emit-index-url", "--no-emit-find-links", "--quiet"),
]


def compile_lock(name: str, subject: str, extra: list[str]) -> None:
    """Resolve one lock file in ``deploy/`` and put its two-line head on it."""
    path = ROOT / "deploy" / name
    subprocess.run([*COMPILE, "--output-file", str(path), *extra], cwd=ROOT, check=True)
    path.write_text(HEAD.format(subject=subject) + path.read_text(encoding="utf-8"))


def upgrades(words: list[str]) -> list[str]:
    """Turn ``--all`` or package names into the resolver's options for newer versions."""
    if "--all" in words:
        return ["--upgrade"]
    return [part for word in words for part in ("--upgrade-package", word)]


def main(words: list[str]) -> None:
    """Lock what runs first, then hold the tests to the very same versions."""
    newer = upgrades(words)
    compile_lock("requirements.lock", "What Yardbell needs to run", newer)
    driver = ["--extra", "postgresql", "--constraints", "deploy/requirements.lock"]
    compile_lock(
        "requirements-postgresql.lock", "What Yardbell needs to run on PostgreSQL", newer + driver
    )
    held = ["--group", "test", "--constraints", "deploy/requirements-postgresql.lock"]
    compile_lock(
        "requirements-test.lock", "What Yardbell needs to run and to be tested", newer + held
    )


if __name__ == "__main__":
    main(sys.argv[1:])
