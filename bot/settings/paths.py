"""Paths: where the program keeps its files on this machine."""

from pathlib import Path

from bot.settings.error import SettingsError


def data_folder() -> Path:
    """The user's data folder for Yardbell, made if it is not there.

    Raises:
        SettingsError: it cannot be made.

    """
    # Loaded only here, since who runs the program for long names the database.
    import platformdirs

    try:
        return platformdirs.user_data_path("yardbell", appauthor=False, ensure_exists=True)
    except OSError as error:
        raise SettingsError(f"the data folder cannot be made: {error}") from None
