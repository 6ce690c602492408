"""The table of short forms against what others list.

Sources: names.csv of PyPI nicknames 1.0.1 (Carlton Northern and Nick Crews, Apache License 2.0); Faker's lists of men's and
women's given names in the United States.
"""

from __future__ import annotations

import pytest
from faker.providers.person.en_US import Provider
from nicknames import name_triplets

from checkface.identity.nicknames import kinship
from checkface.tables import load

ROWS = load("nicknames").rows
PAIRS = {(row["name"], form) for row in ROWS for form in row["short_forms"].split()}
ASKED = {(row["name"], form) for row in ROWS for form in row["asked"].split()}
MEN, WOMEN = ({name.upper() for name in names} for names in (Provider.first_names_male, Provider.first_names_female))


def test_every_pair_stands_in_the_data_set():
    published = {(triplet.name1.upper(), triplet.name2.upper()) for triplet in name_triplets()}
    assert published >= PAIRS | ASKED
    left = {pair for pair in published - PAIRS - ASKED if (pair[1], pair[0]) not in PAIRS | ASKED}
    assert not {one for one, _ in left} & {"MARY", "JOHN", "MICHAEL", "ELIZABETH", "EDNA", "HERMAN"}
    assert not PAIRS & ASKED


def test_no_given_name_of_a_man_is_short_for_one_of_a_woman_alone():
    """Chris, Sam and the like are short for both; no full name of one sex agrees with one of the other."""
    shorts = {short for _, short in PAIRS}
    crossed = {
        pair for pair in PAIRS
        if ((pair[0] in MEN - WOMEN and pair[1] in WOMEN - MEN) or (pair[0] in WOMEN - MEN and pair[1] in MEN - WOMEN))
    }  # fmt: skip
    assert {short for _, short in crossed} <= {"ALEX", "CHRIS", "JACK", "RANDY", "RONNIE", "SANDY"} <= shorts


@pytest.mark.parametrize(
    ("one", "other"),
    [("JOHN", "JANE"), ("SAMUEL", "SAMANTHA"), ("LINDA", "LYLE"), ("ROBERT", "ROBERTA"), ("PATRICK", "PATRICIA")],
)
def test_two_names_of_one_family_are_not_one(one, other):
    assert kinship(one, other) != "same"
    assert kinship(other, one) == kinship(one, other)


def test_kinship_has_no_direction():
    names = sorted({name for pair in PAIRS | ASKED for name in pair})
    for one, other in zip(names, names[1:] + names[:1], strict=True):
        assert kinship(one, other) == kinship(other, one)
    for one, other in PAIRS:
        assert kinship(one, other) == kinship(other, one) == "same"
    for one, other in ASKED:
        assert kinship(one, other) == kinship(other, one) != "other"
