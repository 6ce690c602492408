"""Machine-readable zones and magnetic stripes."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.identity import Card, read_barcode, read_mrz, read_stripe
from checkface.identity.mrz import check_digit
from checkface.span import Fault

TD1 = ["I<UTOD231458907<<<<<<<<<<<<<<<", "7408122F1204159UTO<<<<<<<<<<<6", "ERIKSSON<<ANNA<MARIA<<<<<<<<<<"]
SECRETS = ("D23145890", "740812", "1974")


def digit(field: str) -> str:
    """ICAO Doc 9303 part 3, 4.9, worked out by another way: base-36 values, weights by position."""
    return str(sum((0 if c == "<" else int(c, 36)) * [7, 3, 1][i % 3] for i, c in enumerate(field)) % 10)


def td1(
    code="I<UTO", number="D23145890", birth="740812", until="120415", names="ERIKSSON<<ANNA<MARIA", optional=""
) -> str:
    if len(number) > 9:
        rest = number[9:] + digit(number)
        first = f"{code}{number[:9]}<{(rest + '<' + optional):<15.15}"
    else:
        field = f"{number:<<9}"
        first = f"{code}{field}{digit(field)}{optional:<15.15}"
    first = first.replace(" ", "<")
    second = f"{birth}{digit(birth)}F{until}{digit(until)}UTO{'':<<11}"
    overall = digit(first[5:30] + second[0:7] + second[8:15] + second[18:29])
    return "\n".join([first, second + overall, f"{names:<<30.30}"])


def test_the_builder_of_this_test_gives_the_published_specimen():
    assert td1() == "\n".join(TD1)


@pytest.mark.parametrize("joined", ["\n", "\r\n", "", " ", "\r", "\n\n"])
def test_lines_may_be_broken_in_any_way(joined):
    card = read_mrz(joined.join(TD1))
    assert (card.family, card.given, card.middle) == ("ERIKSSON", "ANNA", "MARIA")
    assert card.checks == card.repairs == ()
    assert read_barcode(joined.join(TD1)) == card
    assert read_barcode("  " + joined.join(TD1) + "\r\n") == card


@pytest.mark.parametrize(
    ("code", "kind"),
    [
        ("C1USA", "permanent-resident"),
        ("C2USA", "permanent-resident"),
        ("CAUSA", "employment-authorization"),
        ("IPUSA", "passport-card"),
        ("I<UTO", "identity-card"),
        ("C1UTO", "identity-card"),
        ("ACUTO", "identity-card"),
        ("I<D<<", "identity-card"),
    ],
)
def test_kinds(code, kind):
    card = read_mrz(td1(code))
    assert card.kind == kind
    assert card.issuer == code[2:].strip("<")
    assert card.checks == ()


def test_a_long_number_goes_on_in_the_optional_field():
    card = read_mrz(td1(number="D23145890734"))
    assert card.checks == ()
    assert card.reveal_number() == "D23145890734"
    assert card.masked_number == "********0734"


def test_a_blank_expiry_is_unknown_and_not_an_error():
    card = read_mrz(td1(until="<<<<<<"))
    assert card.expires.kind == "unknown"
    assert card.checks == ()


@pytest.mark.parametrize(
    ("until", "on"), [("790101", date(2079, 1, 1)), ("800101", date(1980, 1, 1)), ("991231", date(1999, 12, 31))]
)
def test_the_century_of_an_expiry(until, on):
    assert read_mrz(td1(until=until)).expires.on == on


def test_a_day_that_does_not_exist():
    card = read_mrz(td1(until="120231"))
    assert card.expires.kind == "unknown"
    assert card.has("dates-inconsistent")


def test_age_without_a_clock_inside():
    assert read_mrz(td1(birth="100101")).age_band(date(2026, 1, 1)) == "under-18"
    assert read_mrz(td1(birth="100101")).age_band(date(2029, 1, 1)) == "18-20"
    assert read_mrz(td1(birth="740812")).age_band(date(2026, 1, 1)) == "21-and-over"


PLACES = [
    (line, at)
    for line, width in ((0, 15), (1, 30))
    for at in range(width)
    if (line, at) != (1, 7) and not (line == 0 and at < 5)
]


@pytest.mark.parametrize(("line", "at"), [place for place in PLACES if not (place[0] == 1 and 15 <= place[1] < 18)])
def test_one_misread_character_is_always_noticed(line, at):
    """Every protected place, every wrong digit: a wrong expiry or number is never given (7, 3 and 1 have inverses)."""
    for wrong in "0123456789":
        lines = list(TD1)
        if lines[line][at] in {wrong, "<"} or not lines[line][at].isdigit():
            continue
        lines[line] = lines[line][:at] + wrong + lines[line][at + 1 :]
        card = read_mrz("\n".join(lines))
        assert card.has("check-digit")
        assert card.expires.on in (None, date(2012, 4, 15))
        assert card.reveal_number() in ("", "D23145890")


@pytest.mark.parametrize(("letters", "digits"), [("O", "0"), ("S", "5"), ("I", "1")])
def test_letters_read_for_digits_are_put_right_where_the_check_digit_agrees(letters, digits):
    at = TD1[1].index(digits, 8, 15)
    line = TD1[1][:at] + letters + TD1[1][at + 1 :]
    card = read_mrz("\n".join([TD1[0], line, TD1[2]]))
    assert card.expires.on == date(2012, 4, 15)
    assert card.repaired("letters-for-digits")


@pytest.mark.parametrize(
    ("names", "family", "given", "middle", "cut"),
    [
        ("ERIKSSON<<ANNA", "ERIKSSON", "ANNA", "", False),
        ("VAN<DER<BERG<<JAN<PIET<KEES", "VAN DER BERG", "JAN", "PIET KEES", False),
        ("MONONYM", "MONONYM", "", "", False),
        ("NILAVADHANANANDA<<ARTHUR<OSWALD<X", "NILAVADHANANANDA", "ARTHUR", "OSWAL", None),
        ("PAPANDROPOULOUSPAPANDROPOULOUS", "PAPANDROPOULOUSPAPANDROPOULOUS", "", "", None),
    ],
)
def test_names(names, family, given, middle, cut):
    name = read_mrz(td1(names=names)).name
    assert (name.family, name.given, name.middle) == (family, given, middle)
    assert (name.given_truncated if given else name.family_truncated) is cut


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("", "id-mrz-lines"),
        ("I<UTO", "id-mrz-lines"),
        ("\n".join(TD1)[:-1], "id-mrz-lines"),
        ("\n".join(TD1).lower(), "id-mrz-lines"),
        ("\n".join(TD1).replace("I<UTO", "V<UTO"), "id-unsupported-document"),
        ("<" * 500, "id-too-long"),
    ],
)
def test_what_is_no_zone(text, kind):
    found = read_mrz(text)
    assert isinstance(found, Fault)
    assert found.kind == kind


@given(
    st.text(max_size=120)
    | st.text("ABC0123456789<IPUSA", min_size=90, max_size=90)
    | st.text("P<0129", min_size=88, max_size=88)
)
def test_any_text_is_read_as_a_zone(text):
    found = read_mrz(text)
    assert isinstance(found, Card | Fault)


@given(st.text("<ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789", max_size=60))
def test_the_check_digit_agrees_with_another_derivation(field):
    assert check_digit(field) == digit(field)


def test_no_rendering_of_a_zone_shows_number_or_birth():
    card = read_mrz("\n".join(TD1))
    assert not any(secret in repr(card) for secret in SECRETS)


# Magnetic stripe

TRACK_1 = "%VARICHMOND^SAMPLE$MICHAEL$JOHN^2300 WEST BROAD STREET^?"


def stripe(iin="636000", number="2064235789", until="2412", birth="19860606", rest="=?", track_1=TRACK_1) -> str:
    return f"{track_1};{iin}{number}={until}{birth}{rest}"


@pytest.mark.parametrize(
    ("until", "birth", "kind", "earliest", "latest"),
    [
        ("2412", "19860606", "between", date(2024, 12, 1), date(2024, 12, 31)),
        ("2402", "19860606", "between", date(2024, 2, 1), date(2024, 2, 29)),
        ("7912", "19860606", "between", date(2079, 12, 1), date(2079, 12, 31)),
        ("9912", "19860606", "between", date(1999, 12, 1), date(1999, 12, 31)),
        ("2477", "19860606", "never", None, None),
        ("2488", "19860606", "date", date(2025, 6, 30), date(2025, 6, 30)),
        ("2488", "19860215", "date", date(2025, 2, 28), date(2025, 2, 28)),
        ("2499", "19860606", "date", date(2024, 6, 6), date(2024, 6, 6)),
        ("2599", "19840229", "between", date(2025, 2, 28), date(2025, 3, 1)),
        ("2499", "19840229", "date", date(2024, 2, 29), date(2024, 2, 29)),
        ("2488", "00000000", "unknown", None, None),
        ("2413", "19860606", "unknown", None, None),
        ("2400", "19860606", "unknown", None, None),
    ],
)
def test_expiry_of_a_stripe(until, birth, kind, earliest, latest):
    assert read_stripe(stripe(until=until, birth=birth)).expires[:3] == (kind, earliest, latest)


def test_a_letter_written_as_two_digits_is_put_back():
    card = read_stripe(stripe())
    assert card.reveal_number() == "T64235789"  # T is the twentieth letter
    assert card.repaired("number-letter")
    assert (card.family, card.given, card.middle) == ("SAMPLE", "MICHAEL", "JOHN")
    assert card.address[:3] == ("2300 WEST BROAD STREET", "RICHMOND", "VA")


def test_a_long_number_goes_on_behind_the_birth_date():
    card = read_stripe(
        stripe(iin="636036", number="0112345678901", rest="234?")
    )  # New Jersey: a letter and fourteen digits
    assert card.reveal_number() == "A12345678901234"


@pytest.mark.parametrize(
    ("track_1", "family", "given", "street"),
    [
        (TRACK_1, "SAMPLE", "MICHAEL", "2300 WEST BROAD STREET"),
        ("%VAABCDEFGHIJKLMSAMPLE$MICHAEL^2300 WEST BROAD STREET^?", "SAMPLE", "MICHAEL", "2300 WEST BROAD STREET"),
        ("%VARICHMOND^SAMPLE^?", "SAMPLE", "", ""),
        ("%VARICHMOND", "", "", ""),
        ("", "", "", ""),
    ],
)
def test_track_1(track_1, family, given, street):
    card = read_stripe(stripe(track_1=track_1))
    assert (card.family, card.given, card.address.street) == (family, given, street)
    assert card.has("name-missing") is not bool(family)


def test_a_stripe_is_found_inside_a_barcode():
    assert read_barcode(stripe()) == read_stripe(stripe())
    assert read_barcode(stripe(track_1="")) == read_stripe(stripe(track_1=""))
    inside = read_barcode(f"@\n\x1e\rANSI 636000010001DL00310040DL{stripe()}\r")
    assert (inside.family, inside.medium) == ("SAMPLE", "stripe")


def test_what_does_not_agree_on_a_stripe():
    assert read_stripe(stripe(iin="123456", number="1")).has("issuer-unknown")
    assert read_stripe(stripe(number="1")).has("number-shape")
    assert read_stripe(stripe(birth="20860606")).has("dates-inconsistent")
    assert read_stripe(stripe(track_1=TRACK_1.replace("%VA", "%MD"))).has("state-differs")


@pytest.mark.parametrize(
    "text",
    [
        ";4111111111111111=29122011234567890?",
        "%B4111111111111111^SAMPLE/MICHAEL^2912201123456?",
        "4111111111111111=2912",
    ],
)  # a public test number
def test_a_payment_card_is_refused_and_not_quoted(text):
    for found in (read_stripe(text), read_barcode(text)):
        assert found.kind == "id-number-forbidden"
        assert "4111" not in repr(found)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("%VA", "id-stripe-track-2"),
        (";636000", "id-stripe-track-2"),
        ("", "id-stripe-track-2"),
        ("%" * 2000, "id-too-long"),
    ],
)
def test_what_is_no_stripe(text, kind):
    assert read_stripe(text).kind == kind


@given(st.text(max_size=100) | st.text("%;=^$?0123456789AB", max_size=100))
def test_any_text_is_read_as_a_stripe(text):
    assert isinstance(read_stripe(text), Card | Fault)
