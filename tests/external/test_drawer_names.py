"""Names that nobody here made up: companies never pass for persons, and persons hardly ever need a look.

Source: Faker (https://faker.readthedocs.io), its providers of names and companies, seeded.
"""

from __future__ import annotations

import random
import unicodedata
from collections import Counter
from collections.abc import Iterator

import pytest
from faker import Faker
from faker.providers.person.en_US import Provider

from checkface import tables
from checkface.instruments import drawer

COMPANIES = ["en_US", "es_MX", "es_ES", "fr_CA", "en_CA"]
PERSONS = ["en_US", "es_MX", "fr_CA", "en_CA", "en_IN", "vi_VN", "pl_PL"]
ADDRESSES = [
    "12 Example Lane\nSpringfield IL 62701", "4510 W MAPLE ST APT 4\nANYTOWN, PA 15001", "PO Box 12\nAnytown PA",
    "RR 2 Box 45\nAnytown, NE 68001-1234", "12 Calle Sol\nPonce PR 00716", "PSC 455 BOX 12\nFPO AP 96540",
]  # fmt: skip


@pytest.mark.parametrize("locale", COMPANIES)
def test_no_company_passes_for_a_person(locale: str) -> None:
    fake = Faker(locale)
    fake.seed_instance(10)
    for _ in range(500):
        name = fake.company()
        for shown in (name, name.upper()):
            assert drawer.describe(f"{shown}\n12 Example Lane\nSpringfield IL 62701").verdict in {
                "organization",
                "unclear",
            }


def written(fake: Faker, chance: random.Random) -> Iterator[str]:
    """A household's lines in the ways that checks have them (common practice)."""
    given, other, family = fake.first_name(), fake.first_name(), fake.last_name()
    initial, second = chance.choice("ABCDEFGHJKLMNPRSTW"), fake.last_name()
    yield f"{given} {family}"
    yield f"{given} {initial} {family}"
    yield f"{given} {initial}. {family}, Jr."
    yield f"{initial}. {given} {family} III"
    yield f"{given[0]} {initial} {family}"
    yield f"{given} & {other} {family}"
    yield f"{given} {family} or {other} {family}"
    yield f"{given} {family}\n{other} {family}"
    yield f"{given} {family} AND/OR\n{other} {second}"
    yield f"Mr. & Mrs. {given} {family}"
    yield f"Dr {given} {family} MD"
    yield f"REV {given} {family}"
    yield f"{given} {family}-{second}"
    yield f"{given} {other} {family} {second}"
    yield f"{given} {family} JT TEN\n{other} {family}"
    yield f"{given} {family} & {other} {family} JTWROS"
    yield f"{given} {family} ({chance.randint(200, 999)}) 555-01{chance.randint(10, 99)}"
    yield f"{given} {family}\nDL {initial}{chance.randint(1000000, 9999999)}"
    yield f"{given} {family} DOB 0{chance.randint(1, 9)}/12/1980"
    yield f"{given} {family} PhD\nPH 555-0100"


@pytest.mark.parametrize("locale", PERSONS)
def test_persons_are_persons_however_they_are_written(locale: str) -> None:
    fake, chance, verdicts = Faker(locale), random.Random(10), Counter[str]()
    fake.seed_instance(11)
    for _ in range(40):
        for lines in written(fake, chance):
            shown = f"{lines}\n{chance.choice(ADDRESSES)}"
            for text in (shown, shown.upper()):
                verdicts[drawer.describe(text).verdict] += 1
    assert verdicts.total() == 40 * 20 * 2
    assert verdicts["person"] >= 0.97 * verdicts.total()
    assert verdicts["organization"] == verdicts["none"] == 0


def test_no_name_of_the_united_states_is_held_to_be_a_thing() -> None:
    things = {*tables.load("ordinary_words").data["words"]["thing"].split()}
    names = {*Provider.first_names, *Provider.last_names}
    plain = {"".join(c for c in unicodedata.normalize("NFKD", name.lower()) if c.isalpha()) for name in names}
    assert not things & plain
    assert len(plain) > 1000
