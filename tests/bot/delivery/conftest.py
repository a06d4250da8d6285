"""A counter on a fresh database."""

import pytest
from sqlalchemy import Engine

from tests.bot.delivery.counter import Counter


@pytest.fixture
def counter(engine: Engine) -> Counter:
    return Counter(engine)
