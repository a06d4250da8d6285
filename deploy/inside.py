"""Takes a script of this folder into the environment of its checkout."""

import os
import sys
from pathlib import Path
from typing import NoReturn

from deploy.checkout import Checkout, Need, SetupError
from deploy.commands import ROOT, make_ready


def enter(script: str, words: list[str]) -> bool:
    """Go on in the environment of the checkout, made ready for tests if it is not.

    Returns:
        True in it; False if it could not be made ready, which was said. Elsewhere this does not
        return: the process becomes ``script WORDS`` in it.

    """
    checkout = Checkout(ROOT)
    if Path(sys.prefix).resolve() == checkout.venv.resolve():
        return True
    try:
        make_ready(checkout, Need.TEST)
    except SetupError as error:
        print(error, file=sys.stderr)
        return False
    return become(str(checkout.program("python")), script, words)


def become(python: str, script: str, words: list[str]) -> NoReturn:
    """Run ``script WORDS`` by another Python in the place of this process."""
    os.execv(python, [python, script, *words])
