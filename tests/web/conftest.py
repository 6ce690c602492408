"""The application as a client on this machine sees it, on a fixed day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest
from starlette.testclient import TestClient

from checkface.web import application

HERE = "http://127.0.0.1:8000"
DAY = date(2026, 11, 25)


@pytest.fixture(scope="session")
def client() -> Iterator[TestClient]:
    """A client of the application under the policy that is built in."""
    with TestClient(application(today=lambda: DAY), base_url=HERE) as found:
        yield found
