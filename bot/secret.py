"""What must not be shown: a token, a key, a password."""


class Secret:
    """A text that no log, error or record of the settings shows."""

    __slots__ = ("_text",)

    def __init__(self, text: str) -> None:
        self._text = text

    def reveal(self) -> str:
        """Give the text, to be handed to whom it is for."""
        return self._text

    def __repr__(self) -> str:
        """Show that there is one."""
        return "Secret(...)"

    def __eq__(self, other: object) -> bool:
        """Tell whether it is the same text."""
        return isinstance(other, Secret) and other._text == self._text

    def __hash__(self) -> int:
        """Hash as the text does."""
        return hash(self._text)
