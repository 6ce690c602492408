"""The reader against every version, every issuer and every named deformation."""

from __future__ import annotations

import dataclasses
import os
import random
from collections import Counter
from itertools import islice

import pytest
from identity_payloads import DEFORMATIONS, HOPELESS, TEXTUAL, Holder, holder, issuers, payload, plain

from checkface import identity
from checkface.span import Fault

ROUNDS = 8 if os.environ.get("CHECKFACE_THOROUGH") else 1
VERSIONS = range(1, 13)


def everyone():
    rng = random.Random(20261124)
    for _ in range(ROUNDS):
        for iin, state, country in issuers():
            for version in VERSIONS:
                yield holder(iin, state, country, version, rng), rng


def outcome(who: Holder, found) -> str:
    """right, partly (something unread, nothing wrong), refused, or wrong."""
    if isinstance(found, Fault):
        return "refused"
    stripe = found.medium == "stripe"  # has no accents, and of the expiry only the month
    family = found.family == (plain(who.family) if stripe else " ".join(who.family.split()))
    on = found.expires.on == who.expires
    bounds = (found.expires.earliest, found.expires.latest)
    within = None in bounds or bounds[0] <= who.expires <= bounds[1]
    month = stripe and None not in bounds and within and (bounds[1] - bounds[0]).days < 31
    if family and (on or month):
        return "right"
    return "partly" if within and (family or not found.family) else "wrong"


@pytest.fixture(scope="module")
def tally() -> dict[str, Counter[str]]:
    counts: dict[str, Counter[str]] = {name: Counter() for name in DEFORMATIONS}
    for who, rng in everyone():
        for name, deform in DEFORMATIONS.items():
            found = identity.read_barcode(deform(who, rng))
            counts[name][outcome(who, found)] += 1
    return counts


@pytest.mark.parametrize("name", DEFORMATIONS)
def test_nothing_is_read_wrongly(tally, name):
    assert tally[name]["wrong"] == 0, tally[name]


@pytest.mark.parametrize("name", [name for name in DEFORMATIONS if name not in HOPELESS | {"dates without zeros"}])
def test_every_one_of_a_curable_deformation_is_right(tally, name):
    assert set(tally[name]) == {"right"}, tally[name]


def test_95_in_100_are_right_over_all_curable_deformations(tally):
    total = sum((count for name, count in tally.items() if name not in HOPELESS), Counter())
    assert total["right"] / total.total() >= 0.95, total


def test_most_are_right_even_of_the_hopeless(tally):
    least_right = {
        "one separator lost": 0.9, "some separators lost": 0.85, "separators lost": 0.6, "blanks for separators": 0.6,
        "packed flags": 0.95, "packed addresses": 0.95, "cut short": 0.5, "given name first": 0.85,
    }  # fmt: skip
    assert {*least_right} == HOPELESS
    for name, least in least_right.items():
        assert tally[name]["right"] / tally[name].total() > least, tally[name]


@pytest.mark.parametrize("name", [name for name in DEFORMATIONS if name != "as the standard says"])
def test_every_deformation_is_reported_or_harmless(name):
    """A repaired payload says so; those that change nothing the standard forbids are listed here."""
    harmless = {
        "elements in any order",
        "elements doubled",
        "elements empty",
        "issue date NONE",
        "postal code without padding",
        "postal code with zeros",
        "blanks round values",
        "social security number inside",
        "last return lost",
        "returns for line feeds",
        "blank after separators",
        "return and line feed",
        "stripe layout",
    }
    rng = random.Random(7)
    who = holder("636000", "VA", "USA", 1 if name == "given name first" else 10, rng)
    found = identity.read_barcode(DEFORMATIONS[name](who, rng))
    told = isinstance(found, Fault) or found.repairs or found.checks or found.forbidden
    assert told or name in harmless


def test_the_plain_payload_of_every_version_and_issuer_needs_no_repair():
    for who, _ in everyone():
        card = identity.read_barcode(payload(who))
        assert card.repairs == (), (who.version, who.iin, card.repairs)
        assert {check.kind for check in card.checks} <= {"state-differs"}, (who, card.checks)
        assert (card.version, card.issuer, card.issued) == (who.version, who.state, who.issued)
        assert card.reveal_number() == who.number
        assert card.given == who.given
        assert card.middle == who.middle


def test_no_rendering_shows_a_number_or_a_birth_date():
    for who, rng in islice(everyone(), 0, None, 5):
        for deform in DEFORMATIONS.values():
            found = identity.read_barcode(deform(who, rng))
            shown = [repr(found), str(found), f"{found}", repr(dataclasses.asdict(found))]
            if isinstance(found, Fault):
                shown.append(found.message)
            text = "\n".join(shown)
            number = who.number if len(who.number) > 4 else "\0"
            assert number not in text
            for form in ("%Y%m%d", "%m%d%Y", "%Y-%m-%d", "%m-%d-%Y", "%m/%d/%Y"):
                assert who.birth.strftime(form) not in text
            assert repr(who.birth) not in text
            assert "123456789" not in text


PIECES = [
    "D",
    "A",
    "B",
    "C",
    "N",
    "O",
    "DA",
    "DAC",
    "DAD",
    "DAH",
    "DAQ",
    "DBN",
    "DCS",
    "DCU",
    "DDA",
    "DDD",
    "DDE",
    "JR",
]


def test_names_made_of_element_letters_are_never_cut_wrongly():
    """The hardest holders for a payload that lost separators: families such as DADDEN or MCDADCU."""
    rng = random.Random(99)
    counts: Counter[str] = Counter()
    for _ in range(1_500 * ROUNDS):
        who = holder(*rng.choice(issuers()), rng.randint(1, 12), rng)
        names = ["".join(rng.choices(PIECES, k=rng.randint(1, 5))) for _ in range(3)]
        names[1] += "E" * (len(names[1]) == 1)  # an initial before a full middle name is another order's middle
        who = dataclasses.replace(who, family=names[0], given=names[1], middle=rng.choice(["", names[2]]))
        for name in sorted(HOPELESS - {"given name first"}):  # no family name has one letter
            counts[outcome(who, identity.read_barcode(DEFORMATIONS[name](who, rng)))] += 1
    assert counts["wrong"] == 0
    assert counts["right"] > counts["refused"]


@pytest.mark.parametrize("below", [name for name in DEFORMATIONS if name not in TEXTUAL])
def test_two_deformations_at_once_are_never_read_wrongly(below):
    rng = random.Random(below)
    counts: Counter[str] = Counter()
    for above in TEXTUAL.values():
        for version in (1, 2, 3, 4, 8, 10):
            who = holder(*rng.choice(issuers()), version, rng)
            counts[outcome(who, identity.read_barcode(above(DEFORMATIONS[below](who, rng))))] += 1
    assert counts["wrong"] == 0, counts
