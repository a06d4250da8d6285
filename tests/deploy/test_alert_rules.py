"""The rules for alerts: each speaks of metrics that there are, and the guide says what to do."""

import re
import shutil
import subprocess
from datetime import UTC, datetime
from pathlib import Path

import pytest
from prometheus_client.parser import text_string_to_metric_families
from sqlalchemy import Engine

from bot.web.app import metrics_of

DEPLOY = Path(__file__).resolve().parents[2] / "deploy"
RULES = (DEPLOY / "alerts.yml").read_text()
ALERTS = re.findall(r"^      - alert: (\w+)$", RULES, re.MULTILINE)


def metrics_named(rules: str) -> set[str]:
    return set(re.findall(r"\byardbell_\w+", rules))


def samples_of(name: str, kind: str) -> str:
    """The name under which a metric is asked for."""
    return f"{name}_total" if kind == "counter" else name


@pytest.fixture
def metrics(engine: Engine) -> set[str]:
    """Every metric that the program has, with or without a sample at the moment."""
    text = metrics_of(engine, lambda: datetime.now(UTC))().decode()
    return {samples_of(family.name, family.type) for family in text_string_to_metric_families(text)}


def test_each_rule_speaks_of_metrics_that_there_are(metrics: set[str]) -> None:
    assert len(metrics_named(RULES)) > 5
    assert metrics_named(RULES) - metrics == set()


def test_each_rule_has_all_its_parts() -> None:
    rules = RULES.split("      - alert: ")[1:]

    assert len(rules) == len(ALERTS) > 5
    for rule in rules:
        parts = re.findall(r"^        (\w+): \S", rule, re.MULTILINE)
        assert {"expr", "labels", "annotations"} <= set(parts)
        assert set(parts) <= {"expr", "for", "labels", "annotations"}
        assert re.search(r"labels: \{severity: (page|warn)\}", rule)


@pytest.mark.parametrize("alert", ALERTS)
def test_the_guide_says_what_to_do(alert: str) -> None:
    assert f"\n`{alert}` | " in (DEPLOY / "README.md").read_text()


def test_the_metrics_systems_own_checker_accepts_them_where_it_is_installed() -> None:
    checkers = [found for found in [shutil.which("promtool")] if found is not None]
    checks = [[checker, "check", "rules", str(DEPLOY / "alerts.yml")] for checker in checkers]
    complaints = [
        done.stderr or done.stdout
        for done in (subprocess.run(check, capture_output=True, text=True) for check in checks)
        if done.returncode != 0
    ]

    assert complaints == []
