"""Ledgers to test with: SQLite always, PostgreSQL where CHECKFACE_TEST_DATABASE names a server.

Every PostgreSQL ledger lives in a schema of its own, dropped afterwards.
"""

from __future__ import annotations

import os
import secrets
from collections.abc import Iterator
from pathlib import Path

import pytest
import sqlalchemy as sa
from ledger_world import Place

from checkface.ledger import Ledger

SERVER = os.environ.get("CHECKFACE_TEST_DATABASE")


@pytest.fixture(scope="session")
def server() -> Iterator[sa.Engine | None]:
    """The PostgreSQL server, if there is one to test with."""
    engine = sa.create_engine(sa.make_url(SERVER).set(drivername="postgresql+psycopg")) if SERVER else None
    yield engine
    if engine:
        engine.dispose()


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path, server: sa.Engine | None) -> Iterator[Place]:
    """Where a new ledger may be made."""
    key = tmp_path / "ledger.key"
    if request.param == "sqlite":
        yield Place(str(tmp_path / "shop.ledger"), key)
        return
    if server is None:
        pytest.skip("CHECKFACE_TEST_DATABASE names no server")
    schema = f"test_{secrets.token_hex(6)}"
    with server.begin() as connection:
        connection.exec_driver_sql(f"CREATE SCHEMA {schema}")
    url = server.url.update_query_dict({"options": f"-csearch_path={schema}"})
    yield Place(url.render_as_string(hide_password=False), key)
    with server.begin() as connection:
        connection.exec_driver_sql(f"DROP SCHEMA {schema} CASCADE")


@pytest.fixture
def ledger(place: Place) -> Iterator[Ledger]:
    with place.open() as ledger:
        yield ledger
