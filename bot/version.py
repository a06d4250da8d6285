"""Which version of the program this is."""

from importlib import metadata


def version() -> str:
    """The version that is installed, as pyproject.toml had it."""
    return metadata.version("yardbell")
