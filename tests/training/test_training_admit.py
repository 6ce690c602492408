"""Nothing real is ever drawn: what passes the one door, and what does not."""

from __future__ import annotations

import re
from typing import Any

import pytest
from clean_tender import patched
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from checkface import audit, routing, tables
from checkface.assessment import assess, parse
from checkface.policy import Policy
from checkface.tender import Tender
from checkface.training import NotASpecimenError, admitted, draw, drawn, invented
from checkface.training.plants import PLANTS

REFUSED = "Expected a specimen's routing number on the line, read another: real numbers are never drawn."


def face(**readings: Any) -> Tender:
    return parse({"face": readings})


@pytest.mark.parametrize(
    "line",
    [
        "⑆111000025⑆ 45601122⑈ 1043",  # passes the sum: a bank's
        "⑆011000015⑆ 45601122⑈ 1043",  # a federal bank's
        "T111000025T 45601122O 1043",
        ":111000025: 45601122< 1043",
        "111000025 45601122/1043",
        "⑆1110⑉0002⑆ 45601122⑈ 1043",  # the old form of it
        "⑆11?000025⑆ 45601122⑈ 1043",  # no specimen fits
        "⑆111000026⑆ 45601122⑈ 1043",  # its sum fails, and it is no slip of a specimen
        "⑆11100025⑆ 45601122⑈ 1043",
        "⑈001043⑈ ⑆111000025⑆ 45601122⑈",
        "4⑆111000025⑆ 45601122⑈ 1043",
    ],
)
def test_a_real_number_is_refused_in_every_form(line: str) -> None:
    with pytest.raises(NotASpecimenError) as caught:
        admitted(face(micr=line))
    assert str(caught.value) == REFUSED


def test_the_fraction_of_another_bank_is_refused() -> None:
    with pytest.raises(NotASpecimenError, match="fraction of a specimen bank"):
        admitted(face(micr="⑆071098973⑆ 45601122⑈ 1043", fraction="11-3167/1210"))


def test_every_number_of_the_two_tables_is_a_bank_of_nobody() -> None:
    federal = {row["routing"]: row["kind"] for row in tables.load("government_routing").rows}
    for number in invented.special():
        assert routing.check_digit(number[:8]) == number[8]
        described = routing.describe(number)
        # Nobody's series, or an item behind which no customer has an account.
        nobodys = not described.on_paper or number == "000000000"
        assert nobodys or federal[number] in {"treasury-check", "postal-money-order"}, number


def test_no_slip_that_may_be_drawn_passes_the_sum() -> None:
    specimens = {bank.routing for bank in invented.banks()}
    drawable = {slip for number in specimens for slip in invented._slips(number) if invented.is_drawable(slip)}
    passing = {slip for slip in drawable - specimens if len(slip) == 9 and routing.describe(slip).checksum}
    assert len(drawable) > 2000
    assert passing == set()


@given(st.text("0123456789", min_size=9, max_size=9))
def test_hardly_any_number_may_be_drawn(number: str) -> None:
    if invented.is_drawable(number):
        ours = {bank.routing for bank in invented.banks()} | invented.special()
        assert number in ours or not routing.describe(number).checksum


@given(st.text("0123456789", min_size=6, max_size=12), st.text("0123456789", min_size=6, max_size=12))
def test_the_account_hangs_on_nothing_of_the_account(one: str, other: str) -> None:
    other = (other * 2)[: len(one)].ljust(len(one), "7")
    drawn = [admitted(face(micr=f"⑆071098973⑆ {account}⑈ 1043", serial="1043")) for account in (one, other)]
    if one.strip("0") and other.strip("0"):
        assert drawn[0] == drawn[1]


def test_the_shape_of_the_account_stays() -> None:
    shown = admitted(face(micr="⑆071098973⑆ 456-011-22⑈ 1043", serial="1043")).face.micr.text
    assert re.fullmatch(r"⑆071098973⑆ \d{3}⑉\d{3}⑉\d{2}⑈ 1043", shown)


def test_a_number_that_repeats_the_account_is_not_drawn() -> None:
    shown = admitted(face(micr="⑆071098973⑆ 987654321⑈ 1043", serial="987654321")).face
    assert "987654321" not in shown.micr.text + shown.serial.text


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("drawer", "Margaret Thornbury\n77 Larkspur Terrace\nDunmore PA 18512"),
        ("drawee", "Thornbury National Bank\nDunmore PA"),
        ("payee", "Margaret Thornbury"),
        ("legends", "MONEY ORDER bought by Margaret Thornbury"),
        ("words", "Pay Margaret Thornbury forty-five and 10/100"),
        ("figures", "Thornbury"),
        ("date", "Thornbury's day"),
        ("endorsements", "Margaret Thornbury\nfor deposit only"),
        ("serial", "Thornbury"),
        ("fraction", "Thornbury"),
    ],
)
def test_no_name_is_drawn(name: str, text: str) -> None:
    shown = getattr(admitted(face(**{name: text})).face, name).text
    assert shown
    assert not re.search("margaret|thornbury|larkspur|dunmore|18512", shown, re.IGNORECASE)


def test_a_document_keeps_what_kind_it_is_and_whose() -> None:
    wire = patched({"face.drawer": ["Margaret Thornbury", "77 Larkspur Terrace", "Dunmore PA 18512"]})
    wire["documents"] = [
        {
            "kind": "drivers-license",
            "state": "42",
            "number": "99887766",
            "name": "MARGARET THORNBURY",
            "is_bearer": True,
        },
        {"kind": "passport", "name": "Somebody Else", "barcode": "@ANSI 636025", "expires": "2030-01-01"},
    ]
    shown = admitted(parse(wire))
    assert shown.documents is not None
    assert shown.documents[0].name == shown.face.drawer.text.splitlines()[0]
    assert shown.documents[1].name not in {shown.documents[0].name, "Somebody Else"}
    assert [document.number + document.barcode for document in shown.documents] == ["", ""]
    assert [document.kind for document in shown.documents] == ["drivers-license", "passport"]


def test_the_house_of_the_policy_may_stand_as_payee() -> None:
    policy = Policy.parse('[payee]\nnames = ["Marrowby Foods"]')
    assert admitted(face(payee="marrowby foods"), policy).face.payee.text == "marrowby foods"
    assert admitted(face(payee="marrowby foods")).face.payee.text != "marrowby foods"


#: What hangs on somebody's name, or on a number that is never taken over.
OF_NAMES = {
    "id-number-forbidden", "drawer-differs-from-id", "drawer-not-a-person", "drawer-unclear", "drawee-not-a-bank",
    "drawee-unclear", "kind-undetermined", "payee-house-unknown", "payee-near-house", "wording-not-understood",
}  # fmt: skip
#: What hangs on an address or date that only a document's barcode gives.
OF_BARCODES = {"id-address-differs", "pillar-not-seen"}


def test_the_demo_day_loses_no_finding() -> None:
    lost, refused = [], 0
    with (tables.folder() / "demo" / "saturday.csv").open("rb") as stream:
        for item in audit.tenders(stream):
            assert isinstance(item, audit.Item)
            try:
                shown = admitted(item.tender)
            except NotASpecimenError:
                refused += 1
                continue
            before, after = ({f.rule for f in assess(tender).findings} for tender in (item.tender, shown))
            # Names and numbers of documents are never taken over, and with them goes what is found in them.
            barcode = any(document.barcode for document in item.tender.documents or ())
            gone = (before ^ after) - OF_NAMES - (OF_BARCODES if barcode else set())
            if gone:
                lost.append((item.line, gone))
    assert lost == []
    assert refused == 4


readings = st.one_of(st.none(), st.text(max_size=60), st.text("0123456789⑆⑇⑈⑉?-/ TOAD$.,abcABC", max_size=60))
lines = st.builds(
    "{}⑆{}⑆ {}⑈ {}".format,
    st.sampled_from(["", "4", "⑈1043⑈ "]),
    st.sampled_from([bank.routing for bank in invented.banks()] + ["111000025", "07109897"]),
    st.text("0123456789⑉ ?", max_size=20),
    st.text("0123456789", max_size=6),
)
NAMES = ["fraction", "serial", "date", "payee", "figures", "words", "drawer", "drawee", "legends", "endorsements"]
faces = st.fixed_dictionaries({}, optional=dict.fromkeys(NAMES, readings) | {"micr": st.one_of(readings, lines)})


@settings(max_examples=300, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(faces)
def test_what_is_admitted_is_admitted_unchanged(readings: dict[str, Any]) -> None:
    try:
        once = admitted(parse({"face": readings}))
    except NotASpecimenError:
        return
    assert admitted(once) == once


def test_every_plant_says_what_it_does() -> None:
    assert all(plant.do.__doc__ for plant in PLANTS.values())


def test_a_long_number_where_a_check_number_stands_may_be_an_account() -> None:
    shown = admitted(face(micr="⑈987654321⑈ ⑆071098973⑆ 45601122⑈", serial="987654321")).face
    assert "987654321" not in shown.micr.text
    assert shown.serial.text == "000000000"
    postal = admitted(face(micr="⑆000000204⑆ 88382013445⑈", serial="88382013445")).face
    assert postal.micr.text == "⑆000000204⑆ 88382013445⑈"


@pytest.mark.parametrize("line", ["⑆071098973⑆ 45601122⑈ 1043", "⑆111000025⑆ 45601122⑈ 1043"])
def test_no_other_way_leads_to_a_drawing(line: str) -> None:
    real = face(micr=line, serial="1043", payee="Margaret Thornbury")
    with pytest.raises(NotASpecimenError):
        drawn(assess(real))
    if "071098973" in line:
        assert drawn(assess(admitted(real))) == draw(real)


@pytest.mark.parametrize("name", ["legends", "endorsements"])
def test_only_whole_phrases_keep_their_words(name: str) -> None:
    text = (
        "BANK OF AMERICA\nSteven Banks, account 4560 1122\nMary Teller 4560\nM0NEY ORDER of May Check\n"
        "NOT VALID OVER $45601122\nVOID AFTER 60 DAYS Cash Month"
    )
    assert getattr(admitted(face(**{name: text})).face, name).text.splitlines() == [
        "zzzz zz zzzzzzz",
        "zzzzzz zzzzz, zzzzzzz 0000 0000",
        "zzzz zzzzzz 0000",
        "M0NEY ORDER zz zzz zzzzz",
        "NOT VALID OVER $00000000",
        "VOID AFTER 60 DAYS Cash Month",
    ]


@pytest.mark.parametrize(
    "text",
    [
        "NOT VALID OVER $1,000.00",
        "NOT VALID BEFORE 12/09/2026",
        "PROCESSED ELECTRONICALLY 11/14/2026",
        "VOID - ONE DEBIT 11/24/2026 $45.10",
        "USED FOR ONE DEBIT - NO DEPOSIT",
        "For deposit only",
        "CASHIER'S CHECK",
        "TRAVELERS CHEQUE",
    ],
)
def test_what_is_printed_on_paper_stays(text: str) -> None:
    assert admitted(face(legends=text, endorsements=text)).face.legends.text == text
    assert admitted(face(legends=text, endorsements=text)).face.endorsements.text == text


@pytest.mark.parametrize("name", ["words", "figures", "date"])
def test_no_name_that_is_nearly_a_word(name: str) -> None:
    shown = getattr(admitted(face(**{name: "Steven Banks Augusta Teller"})).face, name).text
    assert shown == "zzzzzz zzzzz zzzzzzz zzzzzz"


@pytest.mark.parametrize(
    ("line", "serial", "kept"),
    [
        ("⑆071098973⑆ 45601122⑈ 1043", "1043", True),
        ("⑆071098973⑆ 45601122⑈ 104377", "104377", True),
        ("⑆071098973⑆ 45601122⑈ 10437755", "10437755", False),  # eight digits on a personal check
        ("⑈10437755⑈ ⑆071098973⑆ 45601122⑈", "10437755", True),
        ("⑆071098973⑆ 456011⑈ 456011", "456011", False),  # the account once more
        ("⑈00456011⑈ ⑆071098973⑆ 456011⑈", "456011", False),
        ("⑆071098973⑆ 45601122⑈ 601122", "601122", False),  # most of it
    ],
)
def test_a_check_number_is_drawn_where_it_can_be_no_account(line: str, serial: str, kept: bool) -> None:
    shown = admitted(face(micr=line, serial=serial)).face
    assert (serial in shown.micr.text, shown.serial.text == serial) == (kept, kept)


def test_a_savings_bond_is_not_drawn_as_a_check() -> None:
    with pytest.raises(NotASpecimenError, match="read a savings bond"):
        draw(face(micr="⑆071098973⑆ 45601122⑈ 1043", legends="UNITED STATES SAVINGS BOND"))
