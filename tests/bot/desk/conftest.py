"""Phones on a fresh database."""

import pytest
from sqlalchemy import Engine

from tests.bot.desk.phones import Phones


@pytest.fixture
def phones(engine: Engine) -> Phones:
    return Phones(engine)
