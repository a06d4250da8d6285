"""The fitted stages in the developers' document are what the walk goes by."""

import numpy as np
import pytest
from scipy import stats

from deploy.fits import PICTURE, Fit, added, fits, picture, rows, waiting
from scheduling.walk.stages import PUBLISHED, Spread, certain
from tests.docs.test_readme import DATES


def test_the_table_is_what_the_code_gives() -> None:
    assert "\n".join(rows(fits())) in DATES


def test_the_picture_is_what_the_code_draws() -> None:
    assert PICTURE.read_text(encoding="utf-8") == picture(fits())
    assert f"(../{PICTURE.relative_to(PICTURE.parents[2])})" in DATES


@pytest.mark.parametrize("fit", fits(), ids=lambda fit: fit.name)
def test_nearly_every_queen_lies_in_the_published_range(fit: Fit) -> None:
    assert 0.95 < fit.inside <= 1 + 1e-9
    assert fit.figure.low <= fit.quantile(0.025) <= fit.quantile(0.975) <= fit.figure.high + 1


def test_one_stage_after_the_other_is_as_numpy_folds_them() -> None:
    both = added(PUBLISHED.maturing, PUBLISHED.to_first_egg)
    folded = np.convolve(PUBLISHED.maturing.chances, PUBLISHED.to_first_egg.chances)
    assert both.chances == pytest.approx(tuple(folded))
    assert both.mean == pytest.approx(PUBLISHED.maturing.mean + PUBLISHED.to_first_egg.mean)


def test_waiting_is_the_geometric_spread_of_scipy() -> None:
    reference = stats.geom(PUBLISHED.flight_chance, loc=-1)
    assert waiting().chances == pytest.approx(tuple(reference.pmf(range(40))))


def test_a_quantile_is_the_first_day_by_which_so_many_are_through() -> None:
    even = Fit("even", fits()[0].figure, Spread(3, (0.25, 0.25, 0.25, 0.25)))
    assert [even.quantile(share) for share in (0.01, 0.25, 0.26, 1.0)] == [3, 3, 4, 6]
    assert Fit("sure", fits()[0].figure, certain(12)).inside == 1
