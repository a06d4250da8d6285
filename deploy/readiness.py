"""Tells whether the environment in ``.venv`` can be used as it stands."""

from deploy.checkout import Checkout, Need
from deploy.stamp import PYTHON, read_stamp, stamp_text


def is_ready(checkout: Checkout, need: Need) -> bool:
    """Tell whether the environment is whole, of this Python, in its place and up to date."""
    stamp = read_stamp(stamp_text(checkout))
    if stamp is None or must_be_remade(checkout):
        return False
    return checkout.fingerprint(need) in stamp.fingerprints


def must_be_remade(checkout: Checkout) -> bool:
    """Tell whether the environment is absent, torn, of another Python, or was moved here.

    One that somebody made by hand with this Python has no stamp and is kept.
    """
    if not checkout.program("python").exists() or made_by(checkout) != PYTHON:
        return True
    text = stamp_text(checkout)
    if text is None:
        return False
    stamp = read_stamp(text)
    return stamp is None or (stamp.root, stamp.python) != (str(checkout.root), PYTHON)


def made_by(checkout: Checkout) -> str | None:
    """Return the Python, such as ``3.11``, that ``pyvenv.cfg`` says made the environment."""
    try:
        lines = (checkout.venv / "pyvenv.cfg").read_text(encoding="utf-8").splitlines()
    except FileNotFoundError:
        return None
    settings = {key.strip(): value.strip() for key, _, value in (s.partition("=") for s in lines)}
    version = settings.get("version") or settings.get("version_info") or ""
    return ".".join(version.split(".")[:2])
