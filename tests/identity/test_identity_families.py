"""Generated names: honest ways to write one agree or are asked about, another member of the family never agrees.

Faker's lists of names are the outside source: names as they are given in the United States, Mexico and Spain, Canada and
Great Britain, and as romanized from India.
"""

from __future__ import annotations

import functools
import random
import re
import unicodedata
from collections import Counter
from collections.abc import Callable

import pytest
from faker import Faker
from hypothesis import assume, given
from hypothesis import strategies as st

from checkface.identity import Name, names_agree
from checkface.identity.accounts import NO_PERSON, parts_of
from checkface.identity.nicknames import kinship
from checkface.tables import load

LOCALES = ["en_US", "es_MX", "es_ES", "en_CA", "en_GB", "en_IN"]
DOUBLE = {"es_MX", "es_ES"}


@functools.cache
def lists(locale: str) -> tuple[list[str], list[str]]:
    """Given and family names of a locale that are letters and no words of an account's title."""
    fake = Faker(locale)
    fake.seed_instance(20261127)
    given_ = sorted({fake.first_name() for _ in range(2_000)})
    family = sorted({fake.last_name() for _ in range(2_000)})
    return [name for name in given_ if usable(name)], [name for name in family if usable(name)]


def usable(name: str) -> bool:
    word = plain(name)
    return (
        len(word) > 1
        and word.replace(" ", "").isalpha()
        and word not in NO_PERSON
        and len(parts_of(f"X {word} X".split())) == 1
    )


def plain(name: str) -> str:
    return "".join(c for c in unicodedata.normalize("NFKD", name.upper()) if not unicodedata.combining(c))


def person(locale: str, rng: random.Random) -> Name:
    given_, families = lists(locale)
    family = rng.choice(families)
    if locale in DOUBLE:
        family += " " + rng.choice(families)
    middle = rng.choice(given_) if rng.random() < 0.7 else ""
    return Name(
        family.upper(), rng.choice(given_).upper(), middle.upper(), rng.choice(["", "", "", "JR", "III"]), *[False] * 3
    )


def short_form(name: Name, rng: random.Random) -> str:
    forms = {row["name"]: row["short_forms"].split() for row in load("nicknames").rows}
    return rng.choice(forms.get(plain(name.given), []) or [name.given])


def cut(name: Name, width: int) -> Name:
    """The card's name as the standard shortens it: from the right, hyphens kept."""
    return name._replace(
        family=name.family[:width], family_truncated=len(name.family) > width,
        given=name.given[:width], given_truncated=len(name.given) > width,
        middle=name.middle[:width], middle_truncated=len(name.middle) > width,
    )  # fmt: skip


def written(name: Name) -> str:
    return " ".join(part for part in (name.given, name.middle, name.family, name.suffix) if part)


Variation = Callable[[Name, random.Random], str]
HONEST: dict[str, Variation] = {
    "in full": lambda name, rng: written(name),
    "small letters": lambda name, rng: written(name).lower(),
    "as titles": lambda name, rng: written(name).title(),
    "without accents": lambda name, rng: plain(written(name)),
    "no middle name": lambda name, rng: written(name._replace(middle="")),
    "middle initial": lambda name, rng: written(name._replace(middle=name.middle[:1])),
    "initial with period": lambda name, rng: written(name._replace(middle=name.middle[:1] and name.middle[0] + ".")),
    "initials": lambda name, rng: written(name._replace(given=name.given[:1], middle=name.middle[:1])),
    "first initial": lambda name, rng: written(name._replace(given=name.given[:1])),
    "no suffix": lambda name, rng: written(name._replace(suffix="")),
    "suffix behind a comma": lambda name, rng: written(name._replace(suffix="")) + (name.suffix and f", {name.suffix}."),
    "family name first, comma": lambda name, rng: f"{name.family}, {name.given} {name.middle}",
    "family name first": lambda name, rng: f"{name.family} {name.given} {name.middle}",
    "title": lambda name, rng: f"{rng.choice(['MR', 'Mrs.', 'DR', 'Ms'])} {written(name)}",
    "degree": lambda name, rng: f"{written(name)}, {rng.choice(['MD', 'ESQ', 'PhD', 'CPA'])}",
    "short form": lambda name, rng: written(name._replace(given=short_form(name, rng))),
    "hyphened family": lambda name, rng: written(name._replace(family=name.family.replace(" ", "-"))),
    "first family name only": lambda name, rng: written(name._replace(family=name.family.split()[0])),
    "joint, first": lambda name, rng: f"{written(name)} OR {rng.choice(['ADA', 'QUENTIN'])} ROE",
    "joint, second": lambda name, rng: f"QUENTIN ROE & {written(name)}",
    "joint, one family name": lambda name, rng: f"{name.given} & ADA {name.family}",
    "joint, on two lines": lambda name, rng: f"ADA ROE\n{written(name)}\n12 ELM STREET\nRICHMOND VA 23269",
    "joint tenants": lambda name, rng: f"ADA ROE AND {written(name)} JT TEN",
    "trustee": lambda name, rng: f"{written(name)} TTEE",
    "telephone behind": lambda name, rng: f"{written(name)} 804-555-0{rng.randrange(100, 200)}",
    "license number behind": lambda name, rng: f"{written(name)} DL T{rng.randrange(10**7, 10**8)}",
    "new family name": lambda name, rng: written(name._replace(family="ROE")),
}  # fmt: skip
MISREAD = {"O": "0", "I": "1", "S": "5", "B": "8", "M": "RN"}


@pytest.fixture(scope="module")
def tally() -> dict[str, Counter[str]]:
    rng = random.Random(1_127)
    counts: dict[str, Counter[str]] = {name: Counter() for name in HONEST}
    for locale in LOCALES:
        for _ in range(100):
            name = person(locale, rng)
            for variation, write in HONEST.items():
                counts[variation][names_agree(write(name, rng), name).verdict] += 1
    return counts


@pytest.mark.parametrize("variation", HONEST)
def test_an_honest_way_to_write_a_name_is_never_another(tally, variation):
    assert set(tally[variation]) <= {"same", "ask"}, tally[variation]


def test_nine_in_ten_need_no_question_where_the_given_name_is_written(tally):
    asked = {"initials", "first initial", "new family name", "family name first"}
    total = sum((count for variation, count in tally.items() if variation not in asked), Counter())
    assert total["same"] / total.total() > 0.97, total


PERSONS = st.builds(person, st.sampled_from(LOCALES), st.randoms(use_true_random=False))


@given(
    PERSONS,
    st.randoms(use_true_random=False),
    st.sampled_from(sorted({*HONEST} - {"new family name"})),
    st.integers(5, 20),
)
def test_a_name_that_the_card_shortens_agrees(name, rng, variation, width):
    found = names_agree(HONEST[variation](name, rng), cut(name, width))
    assert found.verdict in {"same", "ask"}, (name, found)


@given(PERSONS, st.randoms(use_true_random=False), st.sampled_from(sorted(HONEST)))
def test_a_name_keyed_by_the_clerk_agrees(name, rng, variation):
    keyed = rng.choice([written(name), f"{name.family}, {name.given} {name.middle}"])
    found = names_agree(HONEST[variation](name, rng), keyed)
    assert found.verdict in {"same", "ask"}, (keyed, found)


@given(PERSONS, st.randoms(use_true_random=False))
def test_one_misread_letter_is_a_question(name, rng):
    text = plain(written(name))
    places = [at for at, char in enumerate(text) if char in MISREAD and re.search(r"\w", text[at - 1 : at])]
    assume(places)
    at = rng.choice(places)
    found = names_agree(text[:at] + MISREAD[text[at]] + text[at + 1 :], name._replace(suffix=""))
    assert found.verdict in {"same", "ask"}, (text, at, found)


@pytest.mark.parametrize("locale", LOCALES)
def test_another_given_name_in_the_family_never_agrees(locale):
    rng = random.Random(locale)
    counts: Counter[str] = Counter()
    for _ in range(400):
        name = person(locale, rng)._replace(middle="", suffix="")
        other = rng.choice(lists(locale)[0]).upper()
        if plain(other) == plain(name.given) or kinship(plain(other), plain(name.given)) == "same":
            continue
        for line in (f"{other} {name.family}", f"MR & MRS {other} {name.family}", f"{other} & {other} {name.family}"):
            found = names_agree(line, name)
            counts[found.verdict] += 1
            assert found.verdict in {"different", "ask"}, (line, name, found)
    assert counts["different"] / counts.total() > 0.9, counts


@given(PERSONS, st.sampled_from("ABCDEFGHIJKLMNOPQRSTUVWXZ"))
def test_a_contradicting_middle_initial_is_another_person(name, initial):
    assume(name.middle and all(plain(word)[0] != initial for word in name.middle.split()) and " " not in name.given)
    assume(initial not in "IV")  # a suffix may be misread
    found = names_agree(f"{name.given} {initial} {name.family}", name)
    assert found.verdict == "different" or plain(name.given) == initial, (name, initial, found)


@given(PERSONS, PERSONS)
def test_nobody_in_common_never_agrees(one, other):
    words = {plain(word) for word in " ".join(one[:3]).split()}
    assume(words.isdisjoint(plain(word) for word in " ".join(other[:3]).split()))
    assert names_agree(written(one), other).verdict in {"different", "ask"}


@given(PERSONS, st.sampled_from(["POD", "P.O.D.", "ITF", "TOD", "I/T/F", "FBO"]))
def test_a_beneficiary_is_not_the_drawer(name, mark):
    found = names_agree(f"QUENTIN ROE {mark} {written(name)}", name)
    assert (found.verdict, found.capacity) == ("different", "beneficiary")
