"""Who may found a crew on this machine."""

from enum import StrEnum


class Founding(StrEnum):
    """Who may found a crew by a message; whoever sits at the machine's own terminal may."""

    NOBODY = "nobody"
    INVITED = "invited"
    """Who has a code that the owner of the machine made."""
    ANYBODY = "anybody"
