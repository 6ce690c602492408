"""Generated persons and companies, as payees, are never the house: the names are Faker's (its en_US providers)."""

from __future__ import annotations

import pytest
from faker import Faker

from checkface.instruments import payee_match

HOUSES = [
    "Quillfeather Grocery", "Walker's Market", "Rock Creek Market", "Hill Market", "Food Market", "Anderson Foods",
    "Johnson's Family Foods", "Green Valley Market", "Smith Brothers Market", "Main Street Market", "Corner Grocery",
]  # fmt: skip


def names(kind: str, count: int) -> list[str]:
    source = Faker("en_US")
    source.seed_instance(1)
    return [getattr(source, kind)() for _ in range(count)]


@pytest.mark.parametrize("house", HOUSES)
def test_a_person_is_never_the_house_nor_near_it(house: str) -> None:
    found = {name: payee_match(name, [house]).verdict for name in names("name", 600)}
    assert {name: verdict for name, verdict in found.items() if verdict not in ("another", "other-name")} == {}


@pytest.mark.parametrize("house", HOUSES)
def test_a_company_is_never_the_house(house: str) -> None:
    """One that is named with the family alone may be part of the house's name, and is asked about."""
    assert [name for name in names("company", 600) if payee_match(name, [house]).verdict == "same"] == []


@pytest.mark.parametrize("house", HOUSES)
def test_the_house_beside_a_person_is_shared(house: str) -> None:
    for name in names("name", 60):
        for text in (f"{house} and {name}", f"{name} & {house}", f"{house} or {name}"):
            found = payee_match(text, [house])
            assert found.verdict == "shared", text
            assert found.span.of(text) == name


@pytest.mark.parametrize("house", HOUSES)
def test_a_persons_shop_is_another_name(house: str) -> None:
    """A family's name in place of the telling words, with the house's own word of the trade: silent never."""
    trade = house.rpartition(" ")[2]
    for family in names("last_name", 400):
        if family not in house:
            assert payee_match(f"{family}'s {trade}", [house]).verdict not in ("same", "shared")
