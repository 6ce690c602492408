"""The barcode reader, element by element."""

from __future__ import annotations

import random
import subprocess
import sys
import time
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from identity_payloads import DEFORMATIONS, HOPELESS, holder

from checkface.identity import Card, Forbidden, read_barcode
from checkface.identity.barcode import LONGEST
from checkface.span import Fault

BASE = {
    "DAQ": "T64235789", "DCS": "SAMPLE", "DDE": "N", "DAC": "MICHAEL", "DDF": "N", "DAD": "JOHN", "DDG": "N",
    "DCU": "JR", "DBD": "06062019", "DBB": "06061986", "DBA": "12102024", "DAG": "2300 WEST BROAD STREET",
    "DAI": "RICHMOND", "DAJ": "VA", "DAK": "232690000  ", "DCG": "USA",
}  # fmt: skip


def text(iin="636000", digits="100001", subfile="DL", **changes: str | None) -> str:
    items = {**BASE, **changes}
    return f"@\n\x1e\rANSI {iin}{digits}{subfile}" + "\n".join(c + v for c, v in items.items() if v is not None) + "\r"


def read(**changes) -> Card:
    found = read_barcode(text(**changes))
    assert isinstance(found, Card)
    return found


@pytest.mark.parametrize(
    ("subfile", "kind"), [("DL", "drivers-license"), ("ID", "state-id"), ("EN", "enhanced"), ("", "license-or-id")]
)
def test_kinds(subfile, kind):
    assert read(subfile=subfile).kind == kind


def test_the_header_and_the_subfile_may_disagree():
    payload = text().replace("100001DL", "100001ID00410278DL")
    assert read_barcode(payload).has("subfile-differs")


@pytest.mark.parametrize(
    ("changes", "kind"),
    [
        ({}, None),
        ({"DCG": "CAN"}, "country-differs"),
        ({"DAJ": "MD"}, "state-differs"),
        ({"DBB": "06062020"}, "dates-inconsistent"),
        ({"DBA": "06062018"}, "dates-inconsistent"),
        ({"DBA": "06061980", "DBD": None}, "dates-inconsistent"),
        ({"DDJ": "06062007"}, None),
        ({"DDJ": "06072007"}, "dates-inconsistent"),
        ({"DDH": "06062004", "DDI": "06062005"}, None),
        ({"DDH": "06062005"}, "dates-inconsistent"),
        ({"DDI": "06062004"}, "dates-inconsistent"),
        ({"DBB": "NONE", "DDJ": "06072007"}, None),
        ({"DBB": "02292000", "DDJ": "02282021"}, None),
        ({"DBB": "02292000", "DDJ": "03012021"}, None),
        ({"DBB": "02292000", "DDJ": "03022021"}, "dates-inconsistent"),
        ({"DAQ": "12"}, "number-shape"),
        ({"DAQ": "T64-23-5789"}, None),
        ({"DAQ": "NONE"}, "number-missing"),
        ({"DAQ": None}, "number-missing"),
        ({"DCS": "NONE"}, "name-missing"),
        ({"iin": "000000"}, "issuer-unknown"),
        ({"iin": "990876", "DCG": "CAN", "DAJ": "AB", "DAQ": "123456789"}, "issuer-unconfirmed"),
        ({"iin": "636027", "DAJ": "MD"}, None),
    ],
)
def test_checks(changes, kind):
    found = read(**changes)
    assert [check.kind for check in found.checks] == ([kind] if kind else [])


def test_checks_never_show_a_date_or_a_number():
    words = " ".join(check.words for check in read(DBB="06062020", DBA="06062018", DDJ="01012000", DAQ="12").checks)
    assert not any(char.isdigit() for char in words.replace("21st", "").replace("reaching 21", ""))


@pytest.mark.parametrize(
    ("value", "kind", "raw"),
    [
        ("MIL", "unknown", "MIL"),
        ("NONE", "unknown", "NONE"),
        ("INDEF", "never", "INDEF"),
        ("99999999", "never", "99999999"),
        ("00000000", "unknown", ""),
        ("T64235789", "unknown", ""),
    ],
)
def test_expiries_that_are_no_day(value, kind, raw):
    expires = read(DBA=value).expires
    assert (expires.kind, expires.raw) == (kind, raw)


def test_a_missing_expiry_is_unknown():
    assert read(DBA=None).expires.kind == "unknown"


@pytest.mark.parametrize(
    ("changes", "parts"),
    [
        ({}, ("SAMPLE", "MICHAEL", "JOHN", "JR")),
        ({"DAD": "NONE", "DCU": "unavl"}, ("SAMPLE", "MICHAEL", "", "")),
        ({"DAC": None, "DAD": None, "DCT": "MICHAEL,JOHN"}, ("SAMPLE", "MICHAEL", "JOHN", "JR")),
        ({"DAC": None, "DAD": None, "DCT": "MICHAEL JOHN  PAUL"}, ("SAMPLE", "MICHAEL", "JOHN PAUL", "JR")),
        (
            {"DCS": None, "DAC": None, "DAD": None, "DCU": None, "DAA": "SAMPLE,MICHAEL,JOHN,SR"},
            ("SAMPLE", "MICHAEL", "JOHN", "SR"),
        ),
        ({"DCS": None, "DAC": None, "DAD": None, "DCU": None, "DAA": "SAMPLE$MICHAEL"}, ("SAMPLE", "MICHAEL", "", "")),
        ({"DCS": None, "DAB": "SAMPLE"}, ("SAMPLE", "MICHAEL", "JOHN", "JR")),
        ({"DCS": "SAMPLE,MICHAEL,JOHN", "DAC": None, "DAD": None}, ("SAMPLE", "MICHAEL", "JOHN", "JR")),
        ({"DCU": None, "DAE": "SR"}, ("SAMPLE", "MICHAEL", "JOHN", "SR")),
        ({"DAC": "MICHAEL J.", "DAD": ""}, ("SAMPLE", "MICHAEL", "J", "JR")),
        ({"DAC": "MARY ANN", "DAD": ""}, ("SAMPLE", "MARY ANN", "", "JR")),
        ({"DCS": "GARCIA  LOPEZ"}, ("GARCIA LOPEZ", "MICHAEL", "JOHN", "JR")),
    ],
)
def test_names(changes, parts):
    card = read(**changes)
    assert (card.family, card.given, card.middle, card.suffix) == parts


def test_one_string_without_commas_stays_unordered():
    card = read(DCS=None, DAC=None, DAD=None, DCU=None, DAA="MICHAEL JOHN SAMPLE")
    assert (card.family, card.name.unordered) == ("", "MICHAEL JOHN SAMPLE")
    assert card.has("name-unordered")


@pytest.mark.parametrize(("flags", "cut"), [("TNU", (True, False, None)), ("NTT", (False, True, True))])
def test_truncation_flags(flags, cut):
    assert read(DDE=flags[0], DDF=flags[1], DDG=flags[2]).name[4:7] == cut


@pytest.mark.parametrize(
    ("changes", "address"),
    [
        ({}, ("2300 WEST BROAD STREET", "RICHMOND", "VA", "23269")),
        ({"DAK": "232691234"}, ("2300 WEST BROAD STREET", "RICHMOND", "VA", "232691234")),
        ({"DAK": "23269-0000"}, ("2300 WEST BROAD STREET", "RICHMOND", "VA", "23269")),
        ({"DAK": "k1a 0b1    "}, ("2300 WEST BROAD STREET", "RICHMOND", "VA", "K1A0B1")),
        ({"DAK": "23269000000"}, ("2300 WEST BROAD STREET", "RICHMOND", "VA", "23269")),
        ({"DAH": "APT 4", "DAG": "1 A ST"}, ("1 A ST APT 4", "RICHMOND", "VA", "23269")),
        (
            {"DAI": "RICHMOND, VA 23269", "DAJ": None, "DAK": None},
            ("2300 WEST BROAD STREET", "RICHMOND", "VA", "23269"),
        ),
        ({"DAI": "RICHMOND", "DAJ": None, "DAK": None}, ("2300 WEST BROAD STREET", "RICHMOND", "", "")),
    ],
)
def test_addresses(changes, address):
    assert read(**changes).address == address


@pytest.mark.parametrize(("value", "limited"), [("1", True), ("0", False), ("", None), (None, None)])
def test_limited_duration(value, limited):
    assert read(DDD=value).limited_duration is limited


def test_social_security_numbers_are_dropped_at_the_door():
    card = read(DBK="123456789", DBM="123-45-6789")
    assert card.forbidden == (Forbidden("social-security", "certain"),) * 2
    assert "6789" not in repr(card).replace("*****5789", "")
    assert read(DBK="NONE").forbidden == ()


@pytest.mark.parametrize(
    ("number", "kind"), [("123-45-6789", "social-security"), ("4111 1111 1111 1111", "payment-card")]
)
def test_a_forbidden_number_in_the_number_field_is_dropped(number, kind):
    card = read(DAQ=number)
    assert card.number is None
    assert card.forbidden == (Forbidden(kind, "certain"),)


def test_age_and_country():
    card = read()
    assert card.is_adult(date(2024, 1, 1)) is True
    assert card.age_band(date(2005, 1, 1)) == "18-20"
    assert (card.country, card.issuer, card.issuer_code, card.version) == ("USA", "VA", "636000", 10)
    assert read(DCG=None).country == "USA"
    assert read(iin="636012", DCG="CDN", digits="020001").country == "CAN"
    assert read(iin="636056", DCG="MEX", DAJ="COA").issuer == "COA"


@pytest.mark.parametrize(
    ("digits", "version", "repaired"),
    [("100001", 10, False), ("120001", 12, False), ("130001", 13, True), ("000001", 0, True)],
)
def test_versions_outside_the_list_are_flagged(digits, version, repaired):
    card = read(digits=digits)
    assert card.version == version
    assert card.repaired("version-unlisted") is repaired


@pytest.mark.parametrize(
    ("changes", "family"),
    [
        ({"DCS": "MADDEN"}, "MADDEN"),
        ({"DCS": "MADDEN", "DDE": None, "DDF": None, "DDG": None}, "MADDEN"),
        ({"DCS": "MADDEN", "DDE": None}, ""),  # MADDEN, or MA and its flag
        ({"DCS": "GARDBATES", "DBA": None}, "GARDBATES"),
        ({"DCS": "MCDADE", "DAD": None}, "MCDADE"),
        ({"DCS": "DACOSTA", "DAC": None, "DCT": "ANA"}, "DACOSTA"),
    ],
)
def test_names_that_spell_elements(changes, family):
    assert read(**changes).family == family


def test_elements_twice_with_different_values_are_not_chosen_between():
    payload = text().replace("DCSSAMPLE", "DCSSAMPLE\nDCSEXAMPLE").replace("DBA12102024", "DBA12102024\nDBA12102026")
    card = read_barcode(payload)
    assert card.family == ""
    assert card.expires.kind == "unknown"
    assert card.has("element-differs")


def test_a_swallowed_element_is_cut_out_only_when_all_of_it_fits():
    card = read_barcode(text(DBA=None, DBB=None, DBD=None, DAC="MICHAELDBA12102024"))
    assert (card.given, card.expires.on) == ("MICHAEL", date(2024, 12, 10))
    assert card.repaired("separator-lost")
    for swallowed in ("MICHAELDBA1210202", "MICHAELDBANONE"):
        card = read_barcode(text(DBA=None, DAC=swallowed))
        assert (card.given, card.expires.kind) == ("", "unknown")
        assert card.has("separator-lost")
    card = read_barcode(text().replace("T64235789\nDCSSAMPLE", "T64235789DCSSAMPLE"))
    assert (card.number, card.family) == (None, "")
    assert card.has("separator-lost")


@pytest.mark.parametrize(
    ("payload", "kind"),
    [
        ("", "id-not-a-card"),
        ("   ", "id-not-a-card"),
        ("hello", "id-not-a-card"),
        ("IDUS1234567", "id-unsupported-uniformed-services"),
        ("@\n\x1e\rANSI 636000100002DL00410278", "id-no-elements"),
        ("@\n\x1e\rANSI 636000100101RG00410278RGRAB12345\r", "id-unsupported-document"),
        ("ANSI 636000×SAMPLE×MICHAEL÷19860606×20241210÷T64235789¶", "id-unsupported-compact"),
        ("×SAMPLE×MICHAEL÷19860606×20241210÷T64235789¶", "id-unsupported-compact"),
        (
            "@\n\x1e\rANSI 636000100101DL00310278DLDAQT64235789DCSSAMPLEDACDACDACDACDACDACDAC",
            "id-separators-lost",
        ),
        ("x" * (LONGEST + 1), "id-too-long"),
        ("DBA SMITH TRUCKING\nDALLAS\nTX", "id-not-a-card"),
        ("DCSSAMPLE\nDAC", "id-not-a-card"),
        ("@\n\x1e\rANSI 636000100101DL00310278DLDBAsoon\nDAYBRO\r", "id-no-elements"),
    ],
)
def test_faults(payload, kind):
    found = read_barcode(payload)
    assert isinstance(found, Fault)
    assert found.kind == kind
    assert "64235789" not in repr(found)
    assert found.message.startswith("Expected ")


@pytest.mark.parametrize("encoding", ["latin-1", "utf-8"])
def test_bytes(encoding):
    card = read_barcode(text(DCS="NÚÑEZ").encode(encoding))
    assert card.family == "NÚÑEZ"
    assert card.repaired("character-set") is (encoding == "utf-8")
    assert read_barcode(text().encode("ascii")) == read()


PIECES = st.sampled_from(
    [f"{code}{value}" for code, value in BASE.items()]
    + ["DBK123456789", "ZVZVA01", "DL", "DCS", "D", "<LF>", "|", "^M", "\x90"]
)
PAYLOADS = st.one_of(
    st.text(max_size=200),
    st.binary(max_size=200),
    st.lists(PIECES, max_size=25).map("\n".join),
    st.lists(PIECES, max_size=25).map(lambda pieces: "@\n\x1e\rANSI 636000100101DL00410278DL" + "".join(pieces)),
    st.lists(PIECES, max_size=25).map(lambda pieces: "ANSI 6360000102" + "\r".join(pieces)),
    st.text("@ANSI 0123456789DLCSQBA\n\r\x1e|<>^", max_size=200),
)


@given(PAYLOADS)
def test_any_payload_gives_a_card_or_a_fault(payload):
    found = read_barcode(payload)
    assert isinstance(found, Card | Fault)
    assert "64235789" not in repr(found)
    assert "123456789" not in repr(found)
    assert "06061986" not in repr(found)


@given(st.integers(0, 2**32), st.integers(1, 12), st.integers(0, 400), st.characters())
def test_one_wrong_character_is_read_without_a_crash(seed, version, place, char):
    rng = random.Random(seed)
    who = holder("636000", "VA", "USA", version, rng)
    payload = DEFORMATIONS["as the standard says"](who, rng)
    found = read_barcode(payload[:place] + char + payload[place + 1 :])
    assert isinstance(found, Card | Fault)


@pytest.mark.parametrize(
    "junk",
    [
        "x",
        "DCS",
        "\n",
        "|",
        "<LF>",
        "^M",
        "@",
        "ANSI 636000",
        "DL00410278",
        "D",
        "DBA12102024\n",
        "0",
        "%A;1=",
        "<",
        "\x90",
        "Ctrl-",
        "DDEN",
        "é",
        " ",
        ";636000",
    ],
)
@pytest.mark.parametrize("head", ["", "@\n\x1e\rANSI 636000100101", "@\n\x1e\rANSI 636000100101DL00310278DLDAQ1"])
def test_a_hundred_thousand_characters_take_no_time(junk, head):
    for size in (100_000, LONGEST - len(head)):
        payload = head + (junk * (size // len(junk) + 1))[:size]
        start = time.perf_counter()
        found = read_barcode(payload)
        assert time.perf_counter() - start < 1
        assert isinstance(found, Card | Fault)


def test_a_doubled_separator_does_not_hide_a_cut():
    whole = text(digits="100001DL00310249").replace("\n", "\r\n")
    for end in range(len(whole) - 40, len(whole) - 4):
        card = read_barcode(whole[:end])
        assert card.address.state in ("", "VA")
        assert card.repaired("offsets") or card.has("payload-short")


def test_importing_the_room_loads_no_picture_library():
    code = "import sys, checkface.identity; sys.exit(any(name in sys.modules for name in ('zxingcpp', 'PIL')))"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_deformations_named_hopeless_exist():
    assert set(DEFORMATIONS) > HOPELESS
