"""One drive, many checks: on which days to go to which yard, so that few visits serve them all."""

from scheduling.visit_plan.errands import HORIZON_DAYS, Drives
from scheduling.visit_plan.plan import Visit, VisitPlan, plan_visits

__all__ = ["HORIZON_DAYS", "Drives", "Visit", "VisitPlan", "plan_visits"]
