"""What leaves a card and what never does; age; expiry."""

from __future__ import annotations

import copy
import dataclasses
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.identity import Birth, Card, Check, Expiry, IdNumber, Repair, currency_on
from checkface.identity.expiry import among, within_month

DAY = date(2026, 11, 24)
BEFORE, AFTER = DAY - timedelta(days=1), DAY + timedelta(days=1)


@pytest.mark.parametrize(
    ("text", "masked"),
    [
        ("T64235789", "*****5789"),
        ("1234567", "****567"),
        ("1234", "**34"),
        ("12", "*2"),
        ("1", "*"),
        ("", ""),
        ("K12-34-5678", "*****5678"),
    ],
)
def test_a_mask_shows_at_most_four_and_never_more_than_half(text, masked):
    assert IdNumber(text).masked == masked


@given(st.text("0123456789ABCXYZ -", max_size=40))
def test_no_rendering_of_a_number_shows_it(text):
    number = IdNumber(text)
    for shown in (repr(number), str(number), f"{number}", number.masked):
        assert not number.compact or number.compact not in shown
    assert number.reveal() == text


def test_numbers_are_equal_without_their_separators():
    assert IdNumber("t64-235 789") == IdNumber("T64235789")
    assert hash(IdNumber("t64-235 789")) == hash(IdNumber("T64235789"))
    assert IdNumber("1") != IdNumber("2")
    assert IdNumber("1") != "1"


def test_a_copied_or_exported_card_stays_masked():
    card = Card(kind="drivers-license", medium="barcode", number=IdNumber("T64235789"), birth=Birth(date(1986, 6, 6)))
    for shown in (
        repr(card),
        repr(copy.deepcopy(card)),
        repr(dataclasses.asdict(card)),
        repr(dataclasses.replace(card, version=3)),
    ):
        assert "64235789" not in shown
        assert "1986" not in shown
    assert card.masked_number == "*****5789"
    assert card.reveal_number() == "T64235789"
    assert copy.deepcopy(card) == card


def test_a_card_without_a_number_reveals_nothing():
    card = Card(
        kind="state-id", medium="stripe", checks=(Check("state-differs", "x"),), repairs=(Repair("offsets", "y"),)
    )
    assert (card.masked_number, card.reveal_number()) == ("", "")
    assert card.has("state-differs")
    assert not card.has("number-shape")
    assert card.repaired("offsets")
    assert not card.repaired("opening")


@pytest.mark.parametrize(
    ("born", "on", "band"),
    [
        (date(2008, 11, 24), date(2026, 11, 24), "18-20"),
        (date(2008, 11, 25), date(2026, 11, 24), "under-18"),
        (date(2005, 11, 24), date(2026, 11, 24), "21-and-over"),
        (date(2005, 11, 25), date(2026, 11, 24), "18-20"),
        (date(2008, 2, 29), date(2026, 2, 28), "under-18"),
        (date(2008, 2, 29), date(2026, 3, 1), "18-20"),
        (date(2030, 1, 1), date(2026, 3, 1), "unknown"),
    ],
)
def test_age_bands(born, on, band):
    assert Birth(born).age_band(on) == band
    assert Birth(born).is_adult(on) == {"unknown": None, "under-18": False}.get(band, True)


def test_a_year_of_two_digits_is_the_latest_that_is_past():
    birth = Birth(date(1930, 5, 5), date(2030, 5, 5))
    assert birth.age_band(date(2026, 1, 1)) == "21-and-over"
    assert birth.age_band(date(2031, 1, 1)) == "under-18"
    assert Birth().age_band(DAY) == "unknown"


def test_births_are_compared_and_hashed_without_being_shown():
    assert Birth(DAY) == Birth(DAY)
    assert Birth(DAY) != Birth(AFTER)
    assert hash(Birth(DAY)) == hash(Birth(DAY))
    assert repr(Birth(DAY)) == "Birth(known)"
    assert repr(Birth()) == "Birth(unknown)"


@pytest.mark.parametrize(
    ("expiry", "answer", "strict"),
    [
        (Expiry("date", DAY, DAY), "current", "expired"),
        (Expiry("date", BEFORE, BEFORE), "expired", "expired"),
        (Expiry("date", AFTER, AFTER), "current", "current"),
        (Expiry("never"), "never-expires", "never-expires"),
        (Expiry("unknown"), "unknown", "unknown"),
        (Expiry("between", BEFORE, AFTER), "unknown", "unknown"),
        (Expiry("between", DAY, AFTER), "current", "unknown"),
        (Expiry("between", BEFORE, DAY), "unknown", "expired"),
        (Expiry("between", date(2020, 1, 1), BEFORE), "expired", "expired"),
    ],
)
def test_currency(expiry, answer, strict):
    assert currency_on(expiry, DAY) == answer
    assert currency_on(expiry, DAY, day_of_expiry_good=False) == strict


ORDER = {"current": 2, "unknown": 1, "expired": 0}


@given(st.lists(st.dates(), min_size=1, max_size=3), st.dates(), st.dates(), st.booleans())
def test_a_card_never_becomes_current_again(days, one, other, good):
    expiry = among(tuple(days), "x")
    early, late = sorted((one, other))
    assert ORDER[currency_on(expiry, late, good)] <= ORDER[currency_on(expiry, early, good)]


@given(st.lists(st.dates(), min_size=1, max_size=3), st.dates())
def test_an_open_expiry_says_only_what_all_its_days_say(days, on):
    answers = {currency_on(among((day,), "x"), on) for day in days}
    found = currency_on(among(tuple(days), "x"), on)
    assert found == (answers.pop() if len(answers) == 1 else "unknown")


def test_a_month_is_all_its_days():
    assert within_month(2024, 2, "2402")[1:3] == (date(2024, 2, 1), date(2024, 2, 29))
    assert within_month(2024, 2, "2402").on is None
    assert among((), "NONE") == Expiry("unknown", raw="NONE")
