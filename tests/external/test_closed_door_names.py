"""Whole checks whose printed names nobody here made up: no company converts unasked, and no person is declined.

Published source: the Faker package (MIT), providers of company names and of given and family names.
"""

from __future__ import annotations

import os
from collections import Counter
from typing import Any

import pytest
from clean_tender import CLEAN, house
from faker import Faker

import checkface as cf

HOUSE = house()
MANY = 2000 if os.environ.get("CHECKFACE_THOROUGH") else 100
COMPANIES = ("en_US", "es_MX", "es_ES", "fr_CA", "en_CA")
PERSONS = ("en_US", "es_MX", "en_CA")
ADDRESS = ["12 Example Lane", "Springfield IL 62701"]


def tender(drawer: list[str], holder: str, **counter: Any) -> dict[str, Any]:
    return {
        **CLEAN,
        "face": CLEAN["face"] | {"drawer": drawer},
        "counter": CLEAN["counter"] | counter,
        "documents": [CLEAN["documents"][0] | {"name": holder}],
    }


@pytest.mark.parametrize("declared", ["personal", None])
@pytest.mark.parametrize("locale", COMPANIES)
def test_no_company_converts_without_a_question(locale: str, declared: str | None) -> None:
    fake = Faker(locale)
    fake.seed_instance(2026)
    for _ in range(MANY):
        name = fake.company()
        # Even where the clerk keys the company's name as that of the card.
        for holder in (name, "Ada Sample"):
            answer = cf.assess(tender([name, *ADDRESS], holder, declared_kind=declared), HOUSE)
            assert answer.disposition != "convert", (name, holder)


@pytest.mark.parametrize("locale", PERSONS)
def test_persons_convert_or_are_asked_and_none_is_declined(locale: str) -> None:
    fake = Faker(locale)
    fake.seed_instance(2027)
    found: Counter[str] = Counter()
    for number in range(MANY * 2):
        given, family, other = fake.first_name(), fake.last_name(), fake.first_name()
        middle = fake.random_uppercase_letter()
        drawer, holder = (
            ([f"{given} {family}"], f"{given} {family}"),
            ([f"{given} {middle} {family}".upper()], f"{family}, {given}"),
            ([f"{given} {family}", f"{other} {family}"], f"{other} {family}"),
            ([f"{given} & {other} {family}"], f"{given} {family}"),
            ([f"{given} {family} Jr", "555-0142"], f"{given} {family}"),
            ([f"{given} {middle}. {family} JT TEN"], f"{given} {middle} {family}"),
        )[number % 6]
        answer = cf.assess(tender([*drawer, *ADDRESS], holder), HOUSE)
        asked = {finding.rule for finding in answer.findings if finding.question}
        found[answer.disposition] += 1
        if answer.disposition != "convert":
            assert asked >= {finding.rule for finding in answer.decision.because}, (drawer, holder, answer.findings)
            assert answer.disposition == "refer"
    assert found["convert"] >= 0.95 * sum(found.values()), found
