"""The environment variables that the installer and Yardbell are given."""

from collections.abc import Mapping

MISLEADING = {"PYTHONHOME", "PYTHONPATH", "VIRTUAL_ENV", "__PYVENV_LAUNCHER__"}

HOW_TO_REACH_PACKAGES = {
    "PIP_CACHE_DIR",
    "PIP_CERT",
    "PIP_CLIENT_CERT",
    "PIP_CONFIG_FILE",
    "PIP_DEFAULT_TIMEOUT",
    "PIP_EXTRA_INDEX_URL",
    "PIP_FIND_LINKS",
    "PIP_INDEX_URL",
    "PIP_KEYRING_PROVIDER",
    "PIP_NO_CACHE_DIR",
    "PIP_NO_INDEX",
    "PIP_PROXY",
    "PIP_RETRIES",
    "PIP_TIMEOUT",
    "PIP_TRUSTED_HOST",
}

# Set rather than left out, because the machine's pip configuration may say otherwise.
HOW_TO_INSTALL = {
    "PIP_DISABLE_PIP_VERSION_CHECK": "1",
    "PIP_NO_COLOR": "1",
    "PIP_NO_INPUT": "1",
    "PIP_PROGRESS_BAR": "off",
    "PIP_REQUIRE_VIRTUALENV": "0",
    "PIP_ROOT_USER_ACTION": "ignore",
    "PIP_USER": "0",
}


def clean_environment(variables: Mapping[str, str]) -> dict[str, str]:
    """Leave out what would make the environment's Python find another one's modules."""
    return {name: value for name, value in variables.items() if name not in MISLEADING}


def installer_environment(variables: Mapping[str, str]) -> dict[str, str]:
    """Keep how this machine reaches packages, and nothing else that would steer pip."""
    kept = {
        name: value
        for name, value in clean_environment(variables).items()
        if not name.startswith("PIP_") or name in HOW_TO_REACH_PACKAGES
    }
    return kept | HOW_TO_INSTALL
