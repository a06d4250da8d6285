"""The error of a setting."""


class SettingsError(Exception):
    """A setting is missing or wrong; the message is one line that names it."""
