"""Closed sets of words."""

from enum import StrEnum


class Term(StrEnum):
    """A word of a closed set. It equals its own text, so it is looked up as that text is.

    An enum by itself looks its members up by name, which no text equals, and takes ten times as
    long: a calendar looks up some fifty words for each unit.
    """

    __hash__ = str.__hash__
