"""What the words after ``deploy/start.py`` mean."""

import os
import sys
from pathlib import Path

from deploy.checkout import Checkout, Need, SetupError
from deploy.readiness import is_ready
from deploy.surroundings import clean_environment

HELP = """\
python3 deploy/start.py           set Yardbell up in .venv and play the demo morning
python3 deploy/start.py test      set up what tests need as well, and run every check
python3 deploy/start.py WORDS     set up and pass WORDS on: chat --as NAME, serve, import FILE ...
python3 deploy/start.py help      what Yardbell itself can be told
Everything is kept in .venv of this folder; delete it to start afresh."""

ROOT = Path(__file__).resolve().parent.parent


def main(words: list[str]) -> int:
    """Obey ``words`` and return the exit code; 2 means that the set-up failed."""
    if words[:1] in (["--help"], ["-h"]):
        print(HELP)
        return 0
    try:
        return obey(Checkout(ROOT), words)
    except SetupError as error:
        print(error, file=sys.stderr)
    except KeyboardInterrupt:
        print("Stopped before the set-up was done; the next start goes on.", file=sys.stderr)
        return 130
    except OSError as error:
        print(f"Yardbell could not be set up: {error}", file=sys.stderr)
    return 2


def obey(checkout: Checkout, words: list[str]) -> int:
    """Make the environment ready for ``words``, then check or run Yardbell in it."""
    if words[:1] == ["test"]:
        from deploy.gate import run_checks

        make_ready(checkout, Need.TEST)
        return run_checks(checkout, words[1:])
    make_ready(checkout, Need.RUN)
    return run_yardbell(checkout, ["--help"] if words == ["help"] else words or ["demo"])


def make_ready(checkout: Checkout, need: Need) -> None:
    """Set the environment up if it does not satisfy ``need`` yet."""
    if not is_ready(checkout, need):
        # Loaded only here: a start that finds all in place should not wait for it.
        from deploy.environment import set_up_alone

        set_up_alone(checkout, need)


def run_yardbell(checkout: Checkout, words: list[str]) -> int:
    """Become ``yardbell WORDS``, so that signals and the terminal reach it directly."""
    program = str(checkout.program("yardbell"))
    environment = clean_environment(os.environ)
    sys.stdout.flush()
    if sys.platform != "win32":
        os.execve(program, [program, *words], environment)
    return os.spawnve(os.P_WAIT, program, [program, *words], environment)
