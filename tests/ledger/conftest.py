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


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Place]:
    key = tmp_path / "ledger.key"
    if request.param == "sqlite":
        yield Place(str(tmp_path / "shop.ledger"), key)
        return
    if not SERVER:
        pytest.skip("CHECKFACE_TEST_DATABASE names no server")
    schema = f"test_{secrets.token_hex(6)}"
    url = sa.make_url(SERVER).set(drivername="postgresql+psycopg")
    engine = sa.create_engine(url)
    with engine.begin() as connection:
        connection.exec_driver_sql(f"CREATE SCHEMA {schema}")
    yield Place(
        url.update_query_dict({"options": f"-csearch_path={schema}"}).render_as_string(hide_password=False), key
    )
    with engine.begin() as connection:
        connection.exec_driver_sql(f"DROP SCHEMA {schema} CASCADE")
    engine.dispose()


@pytest.fixture
def ledger(place: Place) -> Iterator[Ledger]:
    with place.open() as ledger:
        yield ledger
