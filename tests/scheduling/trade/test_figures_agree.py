"""Figures that were read in different places must fit together."""

from scheduling.trade import table


def test_egg_to_graft_and_graft_to_emergence_make_the_measured_sixteen_days() -> None:
    """Measured 16 days 1 hour at 34.5 C: Chuda-Mickiewicz & Samborski 2015, Acta Sci. Pol.
    Zootechnica 14(4):25-32, https://asp.zut.edu.pl/2015/14_4/asp-2015-14-4-337.pdf
    """
    sum_of_stages = table.GRAFT_FROM_EGG.days + table.EMERGENCE_FROM_GRAFT.days
    assert sum_of_stages == table.EMERGENCE_FROM_EGG.days == 16


def test_pupae_hang_loose_once_their_cells_are_sealed_and_until_they_may_be_placed() -> None:
    sealed, loose = table.SEALED_FROM_GRAFT, table.PUPAE_HANG_LOOSE_FROM
    assert sealed.value <= loose.value <= sealed.high
    assert table.PUPAE_HANG_LOOSE_UNTIL.days + 1 == table.RIPE_LOOK_FROM_GRAFT.low


def test_a_cell_is_placed_before_its_queen_can_be_out() -> None:
    assert table.RIPE_LOOK_FROM_GRAFT.high <= table.EMERGENCE_FROM_GRAFT.low
    assert table.RIPE_CELL_AGE.value == table.RIPE_LOOK_FROM_GRAFT.value


def test_the_last_look_for_an_open_cell_is_before_her_first_flights() -> None:
    """Mean age at the first orientation flights 5 and 7 days: Panasiuk et al., COLOSS conference
    2015, http://coloss.org/2015conference/registrations/panasiuk
    """
    age = table.EMERGENCE_LOOK_FROM_GRAFT.high - table.EMERGENCE_FROM_GRAFT.value
    assert age < table.FIRST_FLIGHT_FROM_EMERGENCE.low


def test_a_ripe_cell_is_followed_by_eggs_after_the_two_weeks_of_the_standard_methods() -> None:
    """COLOSS BEEBOOK, queen rearing 2.2.2, http://coloss.org/beebook/I/queen-rearing/2/2/2"""
    to_emerge = table.EMERGENCE_FROM_GRAFT.days - table.RIPE_LOOK_FROM_GRAFT.days
    assert to_emerge + table.LAYING_LOOK_FROM_EMERGENCE.days == 14


def test_eggs_are_looked_for_about_the_measured_mean() -> None:
    """Mean 10.6 days: Szabo et al. 1987, J. Apic. Res. 26:73-78, as cited in
    http://honeybee.drawwing.org/book/queen-egg-laying; 11.5 and 14 days: Panasiuk et al. 2015.
    """
    look = table.LAYING_LOOK_FROM_EMERGENCE
    for mean in (10.6, 11.5, 14):
        assert look.low <= mean <= look.high


def test_without_a_spare_queen_a_colony_waits_ten_to_fourteen_days() -> None:
    """Common practice, no source: 10 to 14 days. From the graft to a ripe cell that may go in,
    and to the last day on which one looks whether she is out.
    """
    assert table.RIPE_LOOK_FROM_GRAFT.value == 10
    assert table.EMERGENCE_LOOK_FROM_GRAFT.high == 14


def test_a_trap_is_emptied_before_a_larva_can_leave_it() -> None:
    """Egg 2 to 3 days, feeding larva 5 to 8 days: USDA-ARS Baton Rouge,
    https://ars.usda.gov/southeast-area/baton-rouge-la/honeybeelab/docs/small-hive-beetles
    """
    assert table.TRAP_SERVICE.days <= 2 + 5


def test_drones_are_old_enough_when_the_queens_fly() -> None:
    """Drones fly 38 days after the egg, queens mate 20 to 25 days after theirs; drones and egg
    day: club talk, https://slideplayer.com./amp/12985101; mating: Harris & Sheridan,
    Introduction to the Grafting Technique of Queen Rearing, Mississippi State University.
    """
    mating_after_graft = 23 - table.GRAFT_FROM_EGG.days
    assert table.DRONES_BEFORE_GRAFT.days + mating_after_graft == 38
