"""Phones on a fresh database."""

from pathlib import Path

import pytest

from tests.bot.desk.phones import Phones


@pytest.fixture
def phones(tmp_path: Path) -> Phones:
    return Phones(tmp_path)
