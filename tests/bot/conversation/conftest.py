"""Phones on a fresh database."""

import pytest
from sqlalchemy import Engine

from deploy.standins.phones import Phones


@pytest.fixture
def phones(engine: Engine) -> Phones:
    return Phones(engine)
