"""Every figure of the trade stands in its range and says what it rests on."""

import re
from importlib import import_module
from pkgutil import iter_modules

import pytest

from scheduling import trade
from scheduling.trade import sources, table
from scheduling.trade.constant import Constant, Evidence, Source, Unit

FIGURES = {name: figure for name, figure in vars(table).items() if isinstance(figure, Constant)}
PARTS = [import_module(f"scheduling.trade.{part.name}") for part in iter_modules(trade.__path__)]
SOURCES = {name: source for name, source in vars(sources).items() if isinstance(source, Source)}
NAMED = pytest.mark.parametrize("name", FIGURES)


def test_the_table_has_all_its_parts() -> None:
    in_parts = [f for part in PARTS for f in vars(part).items() if isinstance(f[1], Constant)]

    assert len(FIGURES) >= 35
    assert dict(in_parts) == FIGURES
    assert all(FIGURES[name] is figure for name, figure in in_parts)


@NAMED
def test_a_value_lies_in_its_range(name: str) -> None:
    figure = FIGURES[name]
    assert figure.low <= figure.value <= figure.high


@NAMED
def test_what_was_read_or_worked_out_names_its_source(name: str) -> None:
    figure = FIGURES[name]
    if figure.evidence in {Evidence.READ, Evidence.DERIVED}:
        assert figure.sources


@NAMED
def test_what_was_not_read_says_so(name: str) -> None:
    figure = FIGURES[name]
    if figure.evidence is Evidence.FROM_MEMORY:
        assert "from memory" in figure.note
    if figure.evidence is Evidence.COMMON_PRACTICE:
        assert "common practice, no source" in figure.note
    if figure.evidence is Evidence.OUR_RULE:
        assert figure.note


@NAMED
def test_a_wide_range_says_why_this_value(name: str) -> None:
    figure = FIGURES[name]
    if figure.unit is Unit.DAYS and figure.high - figure.low > 5:
        assert figure.note or figure.evidence is Evidence.READ


@NAMED
def test_a_figure_says_what_it_counts(name: str) -> None:
    assert FIGURES[name].meaning


def test_only_sources_that_are_used_are_listed() -> None:
    used = {source for figure in FIGURES.values() for source in figure.sources}
    unused = {name for name, source in SOURCES.items() if source not in used}
    # A test calendar and the table of syrup densities.
    assert unused <= {"BIENEN_MICHEL", "CRC_SUCROSE"}


@pytest.mark.parametrize("name", SOURCES)
def test_a_source_can_be_found_again(name: str) -> None:
    address = SOURCES[name].address
    assert re.match(r"https?://\S+$", address) or address == "page address not kept"
    assert SOURCES[name].author in str(SOURCES[name])
    assert address in str(SOURCES[name])


def test_a_value_outside_its_range_is_refused() -> None:
    with pytest.raises(ValueError, match="outside"):
        Constant("days of nothing", (5, 1, 4), Unit.DAYS, Evidence.OUR_RULE)


def test_part_days_are_not_taken_for_dates() -> None:
    with pytest.raises(ValueError, match="whole days"):
        Constant("days", (1.5, 1, 2), Unit.DAYS, Evidence.OUR_RULE).days  # noqa: B018
    with pytest.raises(ValueError, match="whole days"):
        table.LAYING_PER_CELL.days  # noqa: B018
