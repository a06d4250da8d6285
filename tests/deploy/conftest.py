"""What the set-up's tests share."""

from pathlib import Path

import pytest

from tests.deploy.small_checkout import lay_out


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """A small checkout that was never set up."""
    return lay_out(tmp_path / "home yard, box 4")
