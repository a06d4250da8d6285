"""The wheel brings all it needs: the demo runs from it in an empty folder, without the checkout."""

import os
import shutil
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

BUILD = "from setuptools import build_meta; build_meta.build_wheel({folder!r})"
WHERE = "import bot, scheduling; print(bot.__file__, scheduling.__file__, sep='\\n')"


def run(*command: str, cwd: Path) -> str:
    """Run a program with no settings of this shell's; gives what it printed."""
    plain = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    environment = plain | {"XDG_DATA_HOME": str(cwd), "HOME": str(cwd), "PIP_NO_INDEX": "1"}
    done = subprocess.run(
        command,
        cwd=cwd,
        env=environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done
    return done.stdout


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A new environment with the wheel in it, which finds the other packages in ours."""
    base = tmp_path_factory.mktemp("wheel")
    source, wheels, environment = base / "source", base / "wheels", base / "environment"
    for folder in ("bot", "scheduling"):
        shutil.copytree(
            ROOT / folder, source / folder, ignore=shutil.ignore_patterns("__pycache__")
        )
    for file in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / file, source)
    wheels.mkdir()
    run(sys.executable, "-c", BUILD.format(folder=str(wheels)), cwd=source)
    (wheel,) = wheels.glob("yardbell-*.whl")
    run(sys.executable, "-m", "venv", str(environment), cwd=base)
    python = str(environment / "bin" / "python")
    run(python, "-m", "pip", "install", "--no-deps", str(wheel), cwd=base)
    (site_packages,) = environment.glob("lib/python*/site-packages")
    (site_packages / "others.pth").write_text(sysconfig.get_path("purelib") + "\n")
    shutil.rmtree(source)
    return environment


def test_the_demo_runs_in_an_empty_folder(installed: Path, tmp_path: Path) -> None:
    shown = run(str(installed / "bin" / "yardbell"), "demo", cwd=tmp_path)
    assert shown.startswith("Ada < Wed 12 May, River:\n")
    assert shown.splitlines()[-1].startswith("That was an invented day.")


def test_the_program_is_the_wheel_s_own(installed: Path, tmp_path: Path) -> None:
    found = run(str(installed / "bin" / "python"), "-c", WHERE, cwd=tmp_path).splitlines()
    assert len(found) == 2
    assert all(file.startswith(f"{installed}/lib/") for file in found)
