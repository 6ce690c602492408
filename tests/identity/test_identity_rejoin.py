"""Runs without separators: cut where one way is left, refused otherwise."""

from __future__ import annotations

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.identity.rejoin import cut_run

PIECES = [
    "DAQT64235789", "DCSSAMPLE", "DDEN", "DACMICHAEL", "DDFN", "DADJOHN", "DDGN", "DBD06062019", "DBB06061986", "DBA12102024",
    "DAG2300 WEST BROAD STREET", "DAIRICHMOND", "DAJVA", "DAK232690000  ", "DCF24242", "DCGUSA", "DDAF", "DDD1",
]  # fmt: skip


def run(**changes: str) -> str:
    return "".join(changes.get(piece[:3], piece) for piece in PIECES)


@pytest.mark.parametrize(
    ("changes", "code", "value"),
    [
        ({}, "DCS", "SAMPLE"),
        ({"DAD": "DADDENISE"}, "DAD", "DENISE"),  # DADDE spells DDE, but across DAD, which stands there for certain
        ({"DCS": "DCSGARCIA LOPEZ"}, "DCS", "GARCIA LOPEZ"),
        ({"DCS": "DCSÑUÑEZ"}, "DCS", "ÑUÑEZ"),
        ({"DAJ": "DAJMD"}, "DAJ", "MD"),
        ({"DBD": "DBDNONE"}, "DBA", "12102024"),
        ({"DDA": ""}, "DBA", "12102024"),
    ],
)
def test_one_way_is_left(changes, code, value):
    assert cut_run(run(**changes), 10)[code] == value


@pytest.mark.parametrize(
    "changes",
    [
        {"DCS": "DCSMADDEN"},  # or MA and its flag
        {"DCS": "DCSMCDADE"},
        {"DCS": "DCSADDAF", "DDA": ""},  # or A and the compliance type F
        {"DCS": "DCSSAMPLE7"},
        {"DAC": "DACDACIA"},
        {"DDE": ""},
        {"DCS": ""},
        {"DBA": "DBA1210202"},
        {"DAQ": "DAQ"},
        {"DDD": "DDD1DBN"},
        {"DDD": "DDD1XYZ"},
    ],
)
def test_refused(changes):
    assert cut_run(run(**changes), 10) is None


def test_a_run_must_begin_with_an_element():
    assert cut_run("X" + run(), 10) is None
    assert cut_run("", 10) is None


@given(
    st.lists(st.sampled_from([*PIECES, "D", "DDA", "DCS", "N", "DDD1", "DCK1"]), max_size=60).map("".join),
    st.integers(0, 13),
)
def test_any_run_is_cut_completely_or_not_at_all(text, version):
    found = cut_run(text, version)
    assert found is None or sorted("".join(code + value for code, value in found.items())) == sorted(text)


def test_the_hardest_runs_take_no_time():
    for filler in ("DCK1", "DDAF", "DCAD", "DCFA", "DAHA", "DDADDBDDC"):
        start = time.perf_counter()
        cut_run(run(DCF="DCF" + filler * 200), 10)
        cut_run(run(DDD=filler * 4000), 10)
        assert time.perf_counter() - start < 1
