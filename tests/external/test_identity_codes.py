"""Letter codes of card issuers and keyed states, against the packages us and pycountry (ISO 3166-2)."""

from __future__ import annotations

import pytest

from checkface import tables
from checkface.identity import find_place, issuer_of

us = pytest.importorskip("us")
pycountry = pytest.importorskip("pycountry")

ISSUERS = tables.load("aamva_issuers").rows
ALPHA_2 = {"USA": "US", "CAN": "CA", "MEX": "MX"}


def test_every_state_and_territory_of_us_is_keyed_by_number_letters_or_name():
    for state in [*us.states.STATES, us.states.DC, *us.states.TERRITORIES]:
        name = "U.S. Virgin Islands" if state.abbr == "VI" else state.name  # us writes Virgin Islands
        for text in (state.fips, state.abbr, name, state.abbr.lower()):
            assert find_place(text).code == state.abbr, text


def test_no_other_number_is_a_state():
    known = {state.fips for state in [*us.states.STATES, us.states.DC, *us.states.TERRITORIES]}
    found = {f"{number:02}" for number in range(100) if find_place(f"{number:02}")}
    assert found - known == {"64", "68", "70"}  # the freely associated states, which us does not list
    assert known <= found


@pytest.mark.parametrize("row", [row for row in ISSUERS if row["code"]], ids=lambda row: row["iin"])
def test_every_issuer_is_a_subdivision_of_iso_3166_2(row):
    found = pycountry.subdivisions.get(code=f"{ALPHA_2[row['country']]}-{row['code']}")
    assert found is not None
    plain = {"QC": "Québec", "VI": "Virgin Islands, U.S.", "COA": "Coahuila de Zaragoza", "YT": "Yukon"}
    assert found.name in {row["name"], plain.get(row["code"])}
    assert issuer_of(row["iin"]).code == row["code"]


def test_every_state_district_and_province_issues_cards():
    codes = {(row["country"], row["code"]) for row in ISSUERS}
    assert {("USA", state.abbr) for state in [*us.states.STATES, us.states.DC, *us.states.TERRITORIES]} <= codes
    canadian = {("CAN", province.code[3:]) for province in pycountry.subdivisions.get(country_code="CA")}
    assert canadian <= codes


def test_issuer_numbers_are_six_digits_and_unique():
    numbers = [row["iin"] for row in ISSUERS]
    assert len(set(numbers)) == len(numbers)
    assert all(len(number) == 6 and number.isdigit() for number in numbers)


def test_countries_are_iso_3166_1():
    assert all(pycountry.countries.get(alpha_3=row["country"]) for row in ISSUERS)
