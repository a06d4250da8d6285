"""The season that segments are counted in is one that is worked: its answers are understood."""

import pytest

from deploy.benchmark.segments import answered_season
from scheduling.entry_kinds import EntryKind

DAYS = 45


@pytest.mark.parametrize(("units", "most"), [(12, 2), (60, 3), (120, 3)])
def test_a_morning_through_a_season_fits_its_segments(units: int, most: int) -> None:
    season = answered_season(units, DAYS)
    assert len(season.lengths) > DAYS / 2
    assert max(season.lengths) <= most


def test_the_season_is_answered() -> None:
    kinds = {entry.kind for entry in answered_season(12, DAYS).log}
    assert {EntryKind.EMERGED, EntryKind.EGGS, EntryKind.SEALED_BROOD, EntryKind.FED} <= kinds
