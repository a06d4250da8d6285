"""Installs locked packages with whatever pip the machine has, and says plainly why it cannot."""

import os
import subprocess
import sys
from collections.abc import Iterator
from importlib.util import find_spec

from deploy.checkout import Checkout, Need, SetupError
from deploy.surroundings import clean_environment, installer_environment

# The first release that can install into an environment other than its own.
OLDEST_PIP = (22, 3)

NO_PIP = (
    "Yardbell needs pip to fetch its packages; install it and start again "
    "(on Debian or Ubuntu: apt install python3-pip)"
)

SIGNS_OF_NO_NETWORK = (
    "after connection broken by",
    "Max retries exceeded",
    "ConnectionError",
    "ConnectTimeout",
    "Read timed out",
    "ReadTimeout",
    "Network is unreachable",
    "name resolution",
)

LONGEST_REASON = 160  # characters of pip's own last line that are worth showing


def install(checkout: Checkout, need: Need) -> None:
    """Install the lock of ``need`` by hash, then this checkout itself, into ``.venv``."""
    pip = pip_for(checkout)
    checkout.log.write_bytes(b"")
    lock = str(checkout.lock(need))
    run_pip(checkout, [*pip, "install", "--no-deps", "--require-hashes", "-r", lock])
    run_pip(checkout, [*pip, "install", "--no-deps", "--no-build-isolation", "-e", "."])


def pip_for(checkout: Checkout) -> list[str]:
    """Return the command of a pip that installs into ``.venv``."""
    python = str(checkout.program("python"))
    for owner in possible_owners():
        if pip_version(owner) >= OLDEST_PIP:
            return [owner, "-m", "pip", "--python", python]
    if find_spec("ensurepip") is None or not bundled_pip_installs(python):
        raise SetupError(NO_PIP)
    return [python, "-m", "pip"]


def bundled_pip_installs(python: str) -> bool:
    """Put the pip that comes with Python itself into the environment of ``python``."""
    done = subprocess.run(
        [python, "-m", "ensurepip", "--default-pip"],
        env=clean_environment(os.environ),
        capture_output=True,
        check=False,
    )
    return done.returncode == 0


def possible_owners() -> Iterator[str]:
    """Give this Python and, if this one lives in an environment, the one it was made from."""
    yield sys.executable
    base = getattr(sys, "_base_executable", sys.executable)
    if base != sys.executable:
        yield base


def pip_version(python: str) -> tuple[int, ...]:
    """Return the version of the pip that belongs to ``python``; (0,) where there is none."""
    asked = subprocess.run(
        [python, "-c", "import pip; print(*pip.__version__.split('.')[:2])"],
        env=clean_environment(os.environ),
        capture_output=True,
        check=False,
        text=True,
    )
    parts = asked.stdout.split()
    return tuple(int(part) for part in parts if part.isdigit()) or (0,)


def run_pip(checkout: Checkout, command: list[str]) -> None:
    """Run pip with all it says kept in the log; raise SetupError if it fails."""
    with checkout.log.open("ab") as log:
        done = subprocess.run(
            command,
            cwd=checkout.root,
            env=installer_environment(os.environ),
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=subprocess.STDOUT,
            check=False,
        )
    if done.returncode != 0:
        raise SetupError(reason_for_failure(checkout))


def reason_for_failure(checkout: Checkout) -> str:
    """Put what went wrong in one line: no network, or else pip's own last word."""
    said = checkout.log.read_text(encoding="utf-8", errors="replace")
    reason = last_word(said)
    where = checkout.log.relative_to(checkout.root)
    if network_failed(reason, said):
        return f"No network: Yardbell's packages could not be fetched; pip's words are in {where}"
    return f"Yardbell's packages could not be installed: {reason[:LONGEST_REASON]} (see {where})"


def last_word(said: str) -> str:
    """Return pip's last line that tells of an error, or else its last line."""
    lines = [line.strip() for line in said.splitlines() if line.strip()] or ["pip said nothing"]
    errors = [line for line in lines if line.startswith("ERROR:")] or lines
    return errors[-1].removeprefix("ERROR:").strip()


def network_failed(reason: str, said: str) -> bool:
    """Tell a dead network from a package that is wrong after a mere hiccup."""
    looked_in = said if reason.startswith("No matching distribution") else reason
    return any(sign in looked_in for sign in SIGNS_OF_NO_NETWORK)
