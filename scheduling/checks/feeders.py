"""Doses told in the feeders of the person who reads them."""

from dataclasses import replace

from scheduling.checks.calendar import Calendar
from scheduling.checks.check import Check


def in_feeders(calendar: Calendar, feeder_litres: float) -> Calendar:
    """Give the same calendar with each dose of syrup counted in feeders of that size."""
    checks = {
        place: tuple([_in_feeders(check, feeder_litres) for check in found])
        for place, found in calendar.checks.items()
    }
    return replace(calendar, checks=checks)


def _in_feeders(check: Check, feeder_litres: float) -> Check:
    if check.why.dose is None:
        return check
    dose = replace(check.why.dose, feeder_litres=feeder_litres)
    return replace(check, why=replace(check.why, dose=dose))
