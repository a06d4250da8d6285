"""Without a network, or with a package that is not what it was, one line says so."""

import hashlib
import zipfile
from pathlib import Path

import pytest

from deploy.environment import PYTHON, RUN, Checkout
from tests.deploy.small_checkout import start

# Nothing listens on the discard port, and no setting of the machine may lend another way out.
NO_WAY_OUT = {
    "PIP_CONFIG_FILE": "/dev/null",
    "PIP_EXTRA_INDEX_URL": "",
    "PIP_FIND_LINKS": "",
    "PIP_INDEX_URL": "http://127.0.0.1:9",
    "PIP_NO_CACHE_DIR": "1",
    "PIP_RETRIES": "1",
}


def lock_something(root: Path, digest: str = "0" * 64) -> None:
    line = f"smallhive==1.0 --hash=sha256:{digest}\n"
    (root / RUN).write_text(line)


def lay_wheel(folder: Path) -> str:
    """Put a wheel of an invented package into ``folder`` and return its digest."""
    folder.mkdir()
    path = folder / "smallhive-1.0-py3-none-any.whl"
    with zipfile.ZipFile(path, "w") as wheel:
        inside = "smallhive-1.0.dist-info"
        wheel.writestr(
            f"{inside}/METADATA", "Metadata-Version: 2.1\nName: smallhive\nVersion: 1.0\n"
        )
        wheel.writestr(f"{inside}/WHEEL", "Wheel-Version: 1.0\nTag: py3-none-any\n")
        wheel.writestr(f"{inside}/RECORD", "")
    return hashlib.sha256(path.read_bytes()).hexdigest()


def test_no_network_is_one_line_and_no_traceback(checkout: Path) -> None:
    lock_something(checkout)
    said = start(checkout, **NO_WAY_OUT)
    assert said.returncode == 2
    assert said.stdout == ""
    assert said.stderr.splitlines()[1:] == [
        "No network: Yardbell's packages could not be fetched; pip's words are in .venv/install.log"
    ]
    assert "127.0.0.1" in (checkout / ".venv" / "install.log").read_text()


def test_a_package_that_was_tampered_with_is_refused_and_named(
    checkout: Path, tmp_path: Path
) -> None:
    lay_wheel(tmp_path / "wheels")
    lock_something(checkout, digest="1" * 64)
    said = start(checkout, **NO_WAY_OUT | {"PIP_FIND_LINKS": str(tmp_path / "wheels")})
    assert said.returncode == 2
    assert "HASHES" in said.stderr.splitlines()[-1]
    assert "No network" not in said.stderr


def test_an_environment_stays_in_use_when_its_renewal_fails(checkout: Path) -> None:
    place = Checkout(checkout)
    place.program("python").parent.mkdir(parents=True)
    place.program("python").symlink_to("/bin/false")
    (place.venv / "pyvenv.cfg").write_text(f"version = {PYTHON}.0\n")
    place.program("yardbell").write_text("#!/bin/sh\necho yardbell as before\n")
    place.program("yardbell").chmod(0o755)
    place.write_stamp(RUN)
    before = (place.root / RUN).read_text()
    lock_something(checkout)
    assert start(checkout, **NO_WAY_OUT).returncode == 2
    (place.root / RUN).write_text(before)
    assert start(checkout, **NO_WAY_OUT).stdout == "yardbell as before\n"


@pytest.mark.parametrize("blocked", [".venv", ".venv.lock"])
def test_a_file_in_the_way_is_one_line_too(checkout: Path, blocked: str) -> None:
    (checkout / blocked).mkdir() if blocked == ".venv.lock" else (checkout / blocked).touch()
    said = start(checkout)
    assert said.returncode == 2
    assert said.stderr.splitlines()[-1].startswith("Yardbell could not be set up: ")
    assert "Traceback" not in said.stderr
