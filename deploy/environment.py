"""Sets Yardbell up in ``.venv`` and runs it there; needs the standard library only.

``venv`` makes the environment and its pip fills it from the lock. A stamp in it tells what it was
made from: an unfinished, moved or older one is made anew, and a changed lock fills it again.
"""

import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

HELP = """\
python3 deploy/start.py           set Yardbell up in .venv and play the demo morning
python3 deploy/start.py test      set up what tests need as well, and run every check
python3 deploy/start.py postgresql    add the driver of PostgreSQL, which is kept from then on
python3 deploy/start.py WORDS     set up and pass WORDS on: chat --as NAME, serve, import FILE ...
python3 deploy/start.py help      what Yardbell itself can be told
Everything is kept in .venv of this folder; delete it to start afresh."""

RUN, TEST = "deploy/requirements.lock", "deploy/requirements-test.lock"
POSTGRESQL = "deploy/requirements-postgresql.lock"
ADDED = "The driver is there. Say where the database is: YARDBELL_DATABASE=postgresql://..."
PYTHON = f"{sys.version_info.major}.{sys.version_info.minor}"
UNFINISHED = "unfinished"
NO_VENV = "Yardbell needs Python's venv module (on Debian or Ubuntu: apt install python3-venv)"
LONGEST_REASON = 160  # characters of pip's own last line that are worth showing
SIGNS_OF_NO_NETWORK = re.compile(
    "after connection broken by|Max retries exceeded|ConnectionError|ConnectTimeout|Read timed out"
    "|ReadTimeout|Network is unreachable|name resolution"
)

MISLEADING = {"PYTHONHOME", "PYTHONPATH", "VIRTUAL_ENV", "__PYVENV_LAUNCHER__"}
REACHES_PACKAGES = re.compile(
    "PIP_(CACHE_DIR|CERT|CLIENT_CERT|CONFIG_FILE|(DEFAULT_)?TIMEOUT|(EXTRA_)?INDEX_URL|FIND_LINKS"
    "|KEYRING_PROVIDER|NO_CACHE_DIR|NO_INDEX|PROXY|RETRIES|TRUSTED_HOST)"
)
# Set rather than left out, because the machine's pip configuration may say otherwise.
PIP_SETTINGS = {
    **{f"PIP_{name}": "1" for name in ("DISABLE_PIP_VERSION_CHECK", "NO_COLOR", "NO_INPUT")},
    **{f"PIP_{name}": "0" for name in ("REQUIRE_VIRTUALENV", "USER")},
    "PIP_PROGRESS_BAR": "off",
    "PIP_ROOT_USER_ACTION": "ignore",
}


class SetupError(Exception):
    """The set-up cannot go on; the text is the one line that the newcomer reads."""


@dataclass(frozen=True)
class Checkout:
    """A copy of Yardbell's source tree at ``root``, with its environment in ``.venv``."""

    root: Path = Path(__file__).resolve().parent.parent

    @property
    def venv(self) -> Path:
        """The folder of the environment."""
        return self.root / ".venv"

    @property
    def log(self) -> Path:
        """All that the installer said last time."""
        return self.venv / "install.log"

    @property
    def stamp(self) -> Path:
        """The file that tells what the environment was made from."""
        return self.venv / "yardbell.stamp"

    def program(self, name: str) -> Path:
        """Return where a program installed in the environment lies."""
        windows = os.name == "nt"
        return self.venv / ("Scripts" if windows else "bin") / (f"{name}.exe" if windows else name)

    def made_from(self, *locks: str) -> dict[str, str]:
        """Return what the stamp of an environment says that holds what these locks name."""
        files = {name: (self.root / name).read_bytes() for name in ("pyproject.toml", *locks)}
        digests = {name: hashlib.sha256(data).hexdigest() for name, data in files.items()}
        return {"root": str(self.root), "python": PYTHON, **digests}

    def write_stamp(self, *locks: str) -> None:
        """Say that the environment is whole and holds what these locks name."""
        self.stamp.write_text(json.dumps(self.made_from(*locks)), "utf-8")


def main(words: list[str]) -> int:
    """Obey ``words`` and return the exit code; 2 means that the set-up failed."""
    if words[:1] in (["--help"], ["-h"]):
        print(HELP)
        return 0
    checkout, for_tests = Checkout(), words[:1] == ["test"]
    lock = {"test": TEST, "postgresql": POSTGRESQL}.get("".join(words[:1]), RUN)
    if code := make_ready(checkout, lock):
        return code
    if lock == POSTGRESQL:
        print(ADDED)
        return 0
    if for_tests:
        from deploy.gate import run_checks

        return run_checks(checkout, words[1:])
    return run_yardbell(checkout, ["--help"] if words == ["help"] else words or ["demo"])


def enter(script: str, words: list[str]) -> bool:
    """Go on in the environment, made ready for tests; False if it could not be, which was said.

    Elsewhere this does not return: the process becomes ``script WORDS`` in the environment.
    """
    checkout = Checkout()
    if Path(sys.prefix).resolve() == checkout.venv.resolve():
        return True
    if not make_ready(checkout, TEST):
        python = str(checkout.program("python"))
        os.execv(python, [python, script, *words])
    return False


def run_yardbell(checkout: Checkout, words: list[str]) -> int:
    """Become ``yardbell WORDS``, so that signals and the terminal reach it directly."""
    program = str(checkout.program("yardbell"))
    sys.stdout.flush()
    if sys.platform != "win32":
        os.execve(program, [program, *words], clean(os.environ))
    return os.spawnve(os.P_WAIT, program, [program, *words], clean(os.environ))


def make_ready(checkout: Checkout, lock: str) -> int:
    """Set the environment up if it does not hold what ``lock`` names; 0, or an exit code."""
    if lock == RUN and POSTGRESQL in (stamped(checkout) or {}):
        lock = POSTGRESQL
    try:
        if not is_ready(checkout, lock):
            with one_at_a_time(checkout):
                if not is_ready(checkout, lock):
                    set_up(checkout, lock)
        return 0
    except SetupError as error:
        print(error, file=sys.stderr)
    except OSError as error:
        print(f"Yardbell could not be set up: {error}", file=sys.stderr)
    except KeyboardInterrupt:
        print("Stopped before the set-up was done; the next start goes on.", file=sys.stderr)
        return 130
    return 2


def is_ready(checkout: Checkout, lock: str) -> bool:
    """Tell whether the environment is whole, of this Python, in its place and up to date."""
    made_from = checkout.made_from(lock).items()
    return not must_be_remade(checkout) and made_from <= (stamped(checkout) or {}).items()


def must_be_remade(checkout: Checkout) -> bool:
    """Tell whether the environment is absent, torn, of another Python, or was moved here.

    One that somebody made by hand with this Python has no stamp and is kept.
    """
    settings = checkout.venv / "pyvenv.cfg"
    if not (checkout.program("python").exists() and settings.is_file()):
        return True
    version = re.search(r"^version(_info)?\s*=\s*(\d+\.\d+)", settings.read_text("utf-8"), re.M)
    if version is None or version[2] != PYTHON:
        return True
    stamp = stamped(checkout)
    here = (str(checkout.root), PYTHON)
    return stamp is not None and (stamp.get("root"), stamp.get("python")) != here


def stamped(checkout: Checkout) -> dict[str, str] | None:
    """Read the stamp; None without one, empty if the environment was never finished."""
    try:
        stamp = json.loads(checkout.stamp.read_text("utf-8"))
    except (FileNotFoundError, NotADirectoryError):
        return None
    except ValueError:
        return {}
    return stamp if isinstance(stamp, dict) else {}


@contextmanager
def one_at_a_time(checkout: Checkout) -> Iterator[None]:
    """Hold the checkout, so that two first starts follow each other.

    The lock falls with the file, even when the process is killed. Windows has no such lock.
    """
    with (checkout.root / ".venv.lock").open("a", encoding="utf-8") as file:
        if sys.platform != "win32":
            import fcntl

            try:
                fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                print("Another start is setting Yardbell up; waiting for it.", file=sys.stderr)
                fcntl.flock(file, fcntl.LOCK_EX)
        yield


def set_up(checkout: Checkout, lock: str) -> None:
    """Make the environment if it must be, and install what ``lock`` names."""
    began = time.monotonic()
    print(f"Setting Yardbell up in {checkout.venv} ...", file=sys.stderr, flush=True)
    if must_be_remade(checkout):
        make_anew(checkout)
    before = checkout.stamp.read_text("utf-8") if checkout.stamp.exists() else None
    checkout.stamp.write_text(UNFINISHED, "utf-8")
    try:
        install(checkout, lock)
    except SetupError:
        # One that was whole stays in use when only its renewal was refused.
        checkout.stamp.unlink() if before is None else checkout.stamp.write_text(before, "utf-8")
        raise
    checkout.write_stamp(RUN, lock)
    print(f"Ready after {time.monotonic() - began:.0f} s.", file=sys.stderr, flush=True)


def make_anew(checkout: Checkout) -> None:
    """Clear ``.venv`` away and make an empty environment in its stead."""
    if find_spec("venv") is None or not (find_spec("pip") or find_spec("ensurepip")):
        raise SetupError(NO_VENV)
    if checkout.venv.is_dir():
        # First, so that a removal cut short leaves nothing that looks whole.
        (checkout.venv / "pyvenv.cfg").unlink(missing_ok=True)
        shutil.rmtree(checkout.venv)
    checkout.venv.mkdir()
    checkout.stamp.write_text(UNFINISHED, "utf-8")
    without = ["--without-pip"] if find_spec("pip") else []
    run(checkout, [sys.executable, "-m", "venv", *without, str(checkout.venv)])


def install(checkout: Checkout, lock: str) -> None:
    """Install the lock by hash, then this checkout itself, by this Python's pip if it has one."""
    python = str(checkout.program("python"))
    pip = [sys.executable, "-m", "pip", "--python", python]
    pip = [*(pip if find_spec("pip") else [python, "-m", "pip"]), "install", "--no-deps"]
    checkout.log.write_bytes(b"")
    run(checkout, [*pip, "--require-hashes", "-r", str(checkout.root / lock)])
    run(checkout, [*pip, "--no-build-isolation", "-e", "."])


def run(checkout: Checkout, command: list[str]) -> None:
    """Run a command with all it says kept in the log; raise SetupError if it fails."""
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
    """Put what went wrong in one line: no network, or else pip's own last word.

    A dead network is told from a package that is wrong after a mere hiccup.
    """
    said = checkout.log.read_text("utf-8", errors="replace")
    lines = [line.strip() for line in said.splitlines() if line.strip()] or ["pip said nothing"]
    errors = [line for line in lines if line.startswith("ERROR:")] or lines
    reason = errors[-1].removeprefix("ERROR:").strip()
    where = checkout.log.relative_to(checkout.root)
    looked_in = said if reason.startswith("No matching distribution") else reason
    if SIGNS_OF_NO_NETWORK.search(looked_in):
        return f"No network: Yardbell's packages could not be fetched; pip's words are in {where}"
    return f"Yardbell's packages could not be installed: {reason[:LONGEST_REASON]} (see {where})"


def clean(variables: Mapping[str, str]) -> dict[str, str]:
    """Leave out what would make the environment's Python find another one's modules."""
    return {name: value for name, value in variables.items() if name not in MISLEADING}


def installer_environment(variables: Mapping[str, str]) -> dict[str, str]:
    """Keep how this machine reaches packages, and nothing else that would steer pip."""
    kept = {
        name: value
        for name, value in clean(variables).items()
        if not name.startswith("PIP_") or REACHES_PACKAGES.fullmatch(name)
    }
    return kept | PIP_SETTINGS
