"""The clean tender as a fixture; and on machines on which nothing may be skipped, a skip fails the run."""

from __future__ import annotations

import copy
import os
from pathlib import Path
from typing import Any

import pytest
from clean_tender import CLEAN, NAMED_TOML
from hypothesis import HealthCheck, settings

# No test is timed: a busy machine is not a fault of the program.
settings.register_profile("untimed", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("untimed")


@pytest.fixture
def clean() -> dict[str, Any]:
    """A fresh copy of the clean tender."""
    return copy.deepcopy(CLEAN)


@pytest.fixture
def named(tmp_path: Path) -> Path:
    """A policy file that names the invented store."""
    path = tmp_path / "house.toml"
    path.write_text(NAMED_TOML, encoding="utf-8")
    return path


_SKIPPED: list[str] = []


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    """Remember skips, for machines on which nothing may be skipped."""
    if report.skipped:
        _SKIPPED.append(report.nodeid)


def pytest_sessionfinish(session: pytest.Session) -> None:
    """With CHECKFACE_NO_SKIP set, a skipped test fails the run: everything it needs is installed there."""
    if os.environ.get("CHECKFACE_NO_SKIP") and _SKIPPED and not hasattr(session.config, "workerinput"):
        session.exitstatus = 1


def pytest_terminal_summary(terminalreporter: Any) -> None:
    """Say which skips failed the run."""
    if os.environ.get("CHECKFACE_NO_SKIP") and _SKIPPED:
        terminalreporter.write_line(f"Skipped, which is a failure here: {', '.join(_SKIPPED)}")
