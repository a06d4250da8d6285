"""The note in ``.venv`` that tells a later start what is in it and whether it is whole."""

import json
import sys
from dataclasses import asdict, dataclass, field
from pathlib import Path

from deploy.checkout import Checkout, Need

UNFINISHED = "unfinished"
PYTHON = f"{sys.version_info.major}.{sys.version_info.minor}"


@dataclass(frozen=True)
class Stamp:
    """Where an environment was made, by which Python, and the fingerprints it satisfies."""

    root: str
    python: str
    fingerprints: list[str] = field(default_factory=list)


def stamp_path(checkout: Checkout) -> Path:
    """Return where the stamp lies."""
    return checkout.venv / "yardbell.stamp"


def stamp_text(checkout: Checkout) -> str | None:
    """Return the stamp as it stands, or None where there is none."""
    try:
        return stamp_path(checkout).read_text(encoding="utf-8")
    except FileNotFoundError:
        return None


def read_stamp(text: str | None) -> Stamp | None:
    """Read a stamp; None if there is none, or if the environment was never finished."""
    if text is None or text == UNFINISHED:
        return None
    try:
        return Stamp(**json.loads(text))
    except (ValueError, TypeError):
        return None


def write_unfinished(checkout: Checkout) -> None:
    """Say that work on the environment has begun, so that a torn one is known as such."""
    checkout.venv.mkdir(exist_ok=True)
    stamp_path(checkout).write_text(UNFINISHED, encoding="utf-8")


def write_finished(checkout: Checkout, need: Need) -> None:
    """Say that the environment is whole; one that serves tests serves running as well."""
    needs = [Need.RUN, need] if need is Need.TEST else [need]
    fingerprints = [checkout.fingerprint(each) for each in needs]
    stamp = Stamp(str(checkout.root), PYTHON, fingerprints)
    stamp_path(checkout).write_text(json.dumps(asdict(stamp)), encoding="utf-8")
