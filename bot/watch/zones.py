"""Which release of the time zone database the program reckons with."""

import importlib
import zoneinfo
from pathlib import Path

_UNKNOWN = "unknown release"


def zone_release() -> str:
    """Name the release and where it is: ``2026a in /usr/share/zoneinfo``.

    The system's own goes before the package ``tzdata``, however old it is.
    """
    for folder in map(Path, zoneinfo.TZPATH):
        if (folder / "UTC").is_file():
            return f"{_release_in(folder)} in {folder}"
    return f"{importlib.import_module('tzdata').IANA_VERSION} in the package tzdata"


def _release_in(folder: Path) -> str:
    """Read the release from the files that say it, where a system has them."""
    compact, plain = folder / "tzdata.zi", folder / "+VERSION"
    if compact.is_file():
        with compact.open(encoding="utf-8") as lines:
            return lines.readline().removeprefix("# version ").strip()
    return plain.read_text(encoding="utf-8").strip() if plain.is_file() else _UNKNOWN
