"""What cards and readers in the wild leave out, run together or write another way: repaired by name, or left unread."""

from __future__ import annotations

import dataclasses
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from identity_payloads import DEFORMATIONS, assemble, elements, holder, issuers, payload, sample_of

from checkface.identity import Forbidden, forbidden_number, read_barcode, read_keyed, read_stripe
from checkface.identity.elements import card_name
from checkface.identity.stripe import holds_track
from checkface.span import Fault
from checkface.tables import load

VIRGINIA = ("636000", "VA", "USA", 10)
SHAPES = {row["state"]: row["pattern"] for row in load("license_shapes").rows if row["pattern"]}


def person(*issuer, seed=3):
    """A holder whose names spell no element."""
    who = holder(*(issuer or VIRGINIA), random.Random(seed))
    return dataclasses.replace(who, family="SAMPLE", given="MICHAEL", middle="JOHN")


@pytest.mark.parametrize(
    ("deformation", "repair"),
    [
        ("tracks without sentinels", "sentinels-lost"),
        ("track without sentinels in a barcode", "sentinels-lost"),
        ("stripe name of full width", "name-full-width"),
        ("issuer number of five digits", "issuer-by-address"),
        ("packed dates", "separator-lost"),
        ("packed flags", "reconstructed"),
        ("packed addresses", "reconstructed"),
        ("number glued to its discriminator", "number-glued"),
        ("number packed with its discriminator", "reconstructed"),
        ("expiry with its month's name", "date-form"),
        ("element list alone", "header-missing"),
        ("semicolons for separators", "separators-replaced"),
        ("tabs for line feeds", "separators-replaced"),
        ("blanks for separators", "reconstructed"),
        ("separators lost", "reconstructed"),
    ],
)
def test_each_repair_has_a_name(deformation, repair):
    who = person()
    card = read_barcode(DEFORMATIONS[deformation](who, random.Random(1)))
    assert card.repaired(repair), card.repairs
    assert card.family == "SAMPLE"
    assert card.expires.earliest.month == who.expires.month
    assert card.issuer == ("" if deformation == "element list alone" else "VA")
    if not deformation.startswith(("stripe", "track")):
        assert (card.reveal_number(), card.expires.on) == (who.number, who.expires)


@pytest.mark.parametrize(("number", "read"), [("T64235789DCF24242", "T64235789"), ("X1DCF24242", "X1DCF24242")])
def test_a_discriminator_is_cut_off_only_where_the_shape_says_so(number, read):
    card = read_barcode(f"ANSI 636000100001DL00310063DLDAQ{number}\nDCSSAMPLE\nDBA12102030\r")
    assert card.reveal_number() == read
    assert card.repaired("number-glued") is (number != read)
    assert card.has("number-shape") is (number == read)


def test_an_issuer_number_of_five_digits_is_settled_by_the_address_alone():
    who = person()
    short = payload(who).replace("ANSI 636000", "ANSI 63600")
    assert read_barcode(short).issuer == "VA"
    elsewhere = read_barcode(short.replace("DAJVA", "DAJAZ"))
    assert (elsewhere.issuer, elsewhere.issuer_code) == ("", "63600")
    assert elsewhere.has("issuer-unknown")
    assert elsewhere.expires.on == who.expires


def test_a_digit_lost_elsewhere_in_the_header_leaves_the_version_open():
    # 636001 is New York's, 63600 and version 10 is a number cut short: either may be what the card says.
    found = read_barcode(payload(person()).replace("ANSI 636000100002", "ANSI 63600110002"))
    assert found.version in (None, 11)
    assert found.issuer == "VA"


def test_a_track_without_sentinels_begins_where_a_known_issuer_says():
    track = "VARICHMOND^SAMPLE$MICHAEL^\n{}642357890=241219860606="
    assert read_stripe(track.format("636000")).issuer == "VA"
    assert read_stripe(track.format("123456")).kind == "id-stripe-track-2"
    assert read_stripe(track.format("99999999999636000")).kind == "id-stripe-track-2"
    assert not holds_track("DBA12102024")


@pytest.mark.parametrize(
    ("one_string", "family", "given_", "kind"),
    [
        ("SAMPLE,MICHAEL,JOHN", "SAMPLE", "MICHAEL", ""),
        ("SAMPLE,MICHAEL,J", "SAMPLE", "MICHAEL", ""),
        ("SAMPLE,MICHAEL", "SAMPLE", "MICHAEL", ""),
        ("SAMPLE,J,MICHAEL", "SAMPLE", "J", ""),
        ("MICHAEL,J,SAMPLE", "SAMPLE", "MICHAEL", "name-order"),
        ("MICHAEL,,SAMPLE", "SAMPLE", "MICHAEL", "name-order"),
        ("MICHAEL,JOHN,SAMPLE", "", "", "name-unordered"),
        ("MICHAEL,SAMPLE", "", "", "name-unordered"),
        ("THOMAS,MICHAEL,JAMES", "", "", "name-unordered"),
        ("THOMAS,MICHAEL,J", "THOMAS", "MICHAEL", ""),
    ],
)
def test_the_order_of_an_early_edition(one_string, family, given_, kind):
    repairs, checks = [], []
    name = card_name({"DAA": one_string}, repairs, checks)
    assert (name.family, name.given) == (family, given_)
    assert ([found.kind for found in [*repairs, *checks] if found.kind.startswith("name-")] or [""])[0] in (
        kind,
        "name-missing",
    )
    assert not name.unordered or sorted(name.unordered.split()) == sorted(one_string.replace(",", " ").split())


def test_a_suffix_behind_a_name_in_one_string():
    assert card_name({"DAA": "SAMPLE,MICHAEL,JR"}, [], [])[:4] == ("SAMPLE", "MICHAEL", "", "JR")


def test_flags_that_were_packed_are_never_left_in_a_name():
    who = person(seed=4)
    text = payload(who)
    for code in ("DDE", "DDF", "DDG"):
        text = text.replace("\n" + code, code)
        card = read_barcode(text.replace("DAJ", "XAJ"))  # something else is missing too: there is no one way to cut
        assert card.family in ("", "SAMPLE")
        assert card.given in ("", "MICHAEL")


@pytest.mark.parametrize("family", ["MCDADE", "VANDAGRIFF", "MCDAID", "ADACHI", "MADDEN", "TRINIDAD"])
@pytest.mark.parametrize("left_away", ["DAD", "DAG", "DAI", "DAD DDE DDF DDG", "DAD DAG DAI DAJ DAK"])
def test_a_name_that_spells_an_element_the_card_leaves_away_stays_whole(family, left_away):
    who = dataclasses.replace(person(), family=family)
    items = [(code, value) for code, value in elements(who) if code not in left_away]
    assert read_barcode(assemble(who, items)).family == family


@pytest.mark.parametrize(("given_", "read"), [("SOLEDAD MARIA", ""), ("MICHAELDADJOHN", ""), ("SOLANGE", "SOLANGE")])
def test_a_given_name_that_may_hold_the_middle_name_is_not_read(given_, read):
    items = [(code, given_ if code == "DAC" else value) for code, value in elements(person()) if code != "DAD"]
    card = read_barcode(assemble(person(), items))
    assert (card.given, card.has("separator-lost")) == (read, not read)


@pytest.mark.parametrize("state", sorted(SHAPES))
def test_no_number_of_its_issuers_shape_is_certainly_forbidden(state):
    """Nothing that a card gives as its own number in a shape of its issuer may be declined for its digits."""
    rng = random.Random(state)
    for _ in range(150):
        found = forbidden_number(sample_of(SHAPES[state], rng), state, own=True)
        assert found is None or found.certainty == "possible"


def test_one_ontario_number_in_ten_passes_the_luhn_sum_and_none_is_dropped():
    rng = random.Random(20261127)
    iin = next(row["iin"] for row in load("aamva_issuers").rows if row["code"] == "ON")
    passing = 0
    for _ in range(400):
        who = person(iin, "ON", "CAN", 8, seed=rng.random())
        letter, digits = who.number[0], who.number[1:]
        printed = f"{letter}{digits[:4]}-{digits[4:9]}-{digits[9:]}"
        passing += forbidden_number(printed, "ON", own=True) == Forbidden("payment-card", "possible")
        items = [(code, printed if code == "DAQ" else value) for code, value in elements(who)]
        card = read_barcode(assemble(who, items))
        assert card.number.compact == who.number
        assert card.forbidden == ()
        assert not card.has("number-shape")
        keyed = read_keyed("drivers-license", printed, "ON", "2030-01-01")
        assert keyed.number.compact == who.number
    assert 20 < passing < 80


def test_a_payment_card_in_place_of_the_number_is_still_refused():
    who = person()
    items = [(code, "4111111111111111" if code == "DAQ" else value) for code, value in elements(who)]
    card = read_barcode(assemble(who, items))
    assert card.number is None
    assert card.forbidden == (Forbidden("payment-card", "certain"),)


@pytest.mark.parametrize("text", ["2028MAR14", "2028 MAR 14", "2028-MAR-14", "2028mar14"])
def test_a_military_card_is_keyed_as_it_is_printed(text):
    assert read_keyed("military-id", "", "", text).expires.on.isoformat() == "2028-03-14"


@pytest.mark.parametrize("text", ["2028MAR32", "2028MAX14", "28MAR14X", "2028MAR1"])
def test_what_is_no_such_day_is_not_read(text):
    assert read_keyed("military-id", "", "", text).expires.kind == "unknown"


PIECES = st.sampled_from(
    [
        "DAQ",
        "DCS",
        "DAC",
        "DBA",
        "DDE",
        "N",
        "SAMPLE",
        "12102024",
        "\n",
        ";",
        " ",
        "\t",
        "%VA",
        "^",
        "$",
        "636000",
        "=",
        "ANSI ",
        "?",
    ]
)


@given(st.lists(PIECES, max_size=60).map("".join))
def test_no_mixture_of_tracks_and_elements_raises(text):
    for found in (read_barcode(text), read_stripe(text)):
        assert isinstance(found, Fault) or found.kind


def test_every_issuer_keeps_its_own_number_of_six_digits():
    for iin, state, country in issuers():
        card = read_barcode(payload(person(iin, state, country, 9)))
        assert card.issuer_code == iin
        assert card.issuer == state
