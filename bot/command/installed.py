"""Whether the environment holds what the lock names: an update may have brought another lock."""

import hashlib
from pathlib import Path

from bot.command.errors import InputError

LOCK = "deploy/requirements.lock"
STAMP = "yardbell.stamp"
UNFINISHED = "unfinished"


def refuse_other_packages(environment: Path) -> None:
    """Go on only in an environment that was filled from the lock as it is now.

    One that ``deploy/start.py`` did not make has no stamp, and is not looked into.

    Raises:
        InputError: it was filled from another lock, or not to the end.

    """
    try:
        stamp = (environment / STAMP).read_text("utf-8")
        lock = (environment.parent / LOCK).read_bytes()
    except OSError:
        return
    changed = LOCK in stamp and hashlib.sha256(lock).hexdigest() not in stamp
    if changed or stamp == UNFINISHED:
        start = environment.parent / "deploy" / "start.py"
        raise InputError(
            f"{environment} does not hold the packages of {LOCK}; run: python3 {start} help"
        )
