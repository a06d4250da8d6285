"""Both ways of keeping reminders do what is measured; the numbers are not tested."""

from deploy.benchmark.job_for_each_reminder import jobs, ticks


def test_each_job_is_added_moved_and_fired_and_so_is_each_row() -> None:
    for measured in (jobs(5), jobs(3), ticks(5)):
        assert list(measured) == ["add", "reschedule", "fire"]
        assert all(seconds > 0 for seconds in measured.values())
