"""One calendar rule and one job in a scheduler for each check, as one might begin."""

from collections.abc import Iterable
from datetime import datetime, time

from apscheduler.schedulers.background import BackgroundScheduler
from dateutil.rrule import DAILY, rrule, rruleset

from scheduling.checks.check import Check


def job_for_each(checks: Iterable[Check]) -> int:
    """Make a rule and a job of every check and give their number; the scheduler never starts."""
    scheduler = BackgroundScheduler(timezone="UTC")
    number = 0
    for check in checks:
        first = datetime.combine(check.not_before, time(6, 30))
        last = datetime.combine(check.by or check.best or check.not_before, time(6, 30))
        rules = rruleset()
        rules.rrule(rrule(DAILY, dtstart=first, until=last))
        scheduler.add_job(print, "date", run_date=rules[0], id=f"{number}")
        number += 1
    return number
