"""The tables of states and prefixes against the packages ``us`` and ``pycountry``."""

from __future__ import annotations

import pytest

from checkface import tables
from checkface.routing import reference


def _states() -> dict[str, dict[str, str]]:
    rows = tables.load("us_states").rows
    return {row["alpha"]: dict(row) for row in rows if row["alpha"] not in ("", "UM")}


def test_states_and_territories_as_the_package_us_has_them() -> None:
    """us: the Census Bureau's FIPS codes (INCITS 38) and the postal abbreviations."""
    us = pytest.importorskip("us")
    ours = _states()
    theirs = {state.abbr: state for state in [*us.states.STATES_AND_TERRITORIES, us.states.DC]}
    assert set(theirs) <= set(ours)
    assert set(ours) - set(theirs) == {"FM", "MH", "PW"}  # freely associated, not territories
    for alpha, state in theirs.items():
        assert ours[alpha]["fips"] == state.fips
        assert ours[alpha]["name"].removeprefix("U.S. ") == state.name


def test_states_and_territories_as_iso_3166_2_has_them() -> None:
    """pycountry: ISO 3166-2:US, which lists the outlying islands under one code."""
    pycountry = pytest.importorskip("pycountry")
    theirs = {place.code.removeprefix("US-"): place.name for place in pycountry.subdivisions.get(country_code="US")}
    ours = _states()
    assert set(theirs) - {"UM"} == set(ours) - {"FM", "MH", "PW"}
    for alpha, name in theirs.items():
        if alpha not in ("UM", "VI"):
            assert ours[alpha]["name"] == name


def test_freely_associated_states_as_iso_3166_1_has_them() -> None:
    """pycountry: ISO 3166-1 alpha-2 codes, which the Postal Service uses for them."""
    pycountry = pytest.importorskip("pycountry")
    for alpha in ("FM", "MH", "PW"):
        assert pycountry.countries.get(alpha_2=alpha) is not None
        assert _states()[alpha]["kind"] == "freely-associated-state"


def test_every_code_stands_once() -> None:
    codes = [row["fips"] for row in tables.load("us_states").rows]
    assert len(codes) == len(set(codes))
    reserved = {row["fips"] for row in tables.load("us_states").rows if row["kind"] == "reserved"}
    assert reserved == {"03", "07", "14", "43", "52"}  # FIPS 5-1


def test_every_prefix_speaks_of_known_states() -> None:
    known = set(_states())
    prefixes = reference.prefixes()
    assert list(prefixes) == [str(value) for value in [*range(1, 100), 101]]
    for prefix in prefixes.values():
        assert set(prefix.states) <= known
        assert all(1 <= district <= 12 for district in prefix.districts)


def test_each_state_has_its_prefix_and_its_city_prefixes_lie_in_its_districts() -> None:
    """The ABA's numerical system of 1911: prefixes 50 to 99 are the states, each once."""
    prefixes = reference.prefixes()
    by_state = {p.states[0]: p for number, p in prefixes.items() if 50 <= int(number) <= 99}
    assert len(by_state) == 50
    assert {alpha for alpha, row in _states().items() if row["kind"] == "state"} == set(by_state)
    for number, prefix in prefixes.items():
        if int(number) < 50 and prefix.states[0] != "DC":
            assert set(prefix.districts) <= set(by_state[prefix.states[0]].districts)
