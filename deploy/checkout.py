"""The places of one checkout that the set-up works with, and what it can be set up for."""

import hashlib
import os
from dataclasses import dataclass
from enum import Enum
from pathlib import Path


class SetupError(Exception):
    """The set-up cannot go on; the text is the one line that the newcomer reads."""


class Need(Enum):
    """What an environment is for; the value is the lock file in ``deploy/`` that it needs."""

    RUN = "requirements.lock"
    TEST = "requirements-test.lock"


@dataclass(frozen=True)
class Checkout:
    """A copy of Yardbell's source tree at ``root``, with its environment in ``.venv``."""

    root: Path

    @property
    def venv(self) -> Path:
        """The folder of the environment."""
        return self.root / ".venv"

    @property
    def log(self) -> Path:
        """All that the installer said last time."""
        return self.venv / "install.log"

    def program(self, name: str) -> Path:
        """Return where a program installed in the environment lies."""
        if os.name == "nt":
            return self.venv / "Scripts" / f"{name}.exe"
        return self.venv / "bin" / name

    def lock(self, need: Need) -> Path:
        """Return the lock file for ``need``."""
        return self.root / "deploy" / need.value

    def fingerprint(self, need: Need) -> str:
        """Return a digest that changes when what must be installed for ``need`` changes."""
        digest = hashlib.sha256(self.lock(need).read_bytes())
        digest.update((self.root / "pyproject.toml").read_bytes())
        return digest.hexdigest()
