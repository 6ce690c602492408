"""Dates on cards."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from checkface.identity.carddates import read_date

D = date


@pytest.mark.parametrize(
    ("text", "year_first", "days", "nature", "repair"),
    [
        ("12102024", False, [D(2024, 12, 10)], "date", ""),
        ("20241210", True, [D(2024, 12, 10)], "date", ""),
        ("20241210", False, [D(2024, 12, 10)], "date", "year-first"),
        ("12102024", True, [D(2024, 12, 10)], "date", "month-first"),
        (" 12102024 ", False, [D(2024, 12, 10)], "date", ""),
        ("12-10-2024", False, [D(2024, 12, 10)], "date", "separators"),
        ("12/10/2024", True, [D(2024, 12, 10)], "date", "separators"),
        ("2024-12-10", False, [D(2024, 12, 10)], "date", "separators"),
        ("12 10 2024", False, [D(2024, 12, 10)], "date", "separators"),
        ("6/6/2018", False, [D(2018, 6, 6)], "date", "separators"),
        ("12-10/2024", False, [], "unreadable", ""),
        ("31/12/2024", False, [], "unreadable", ""),
        ("12/10/24", False, [], "unreadable", ""),
        ("6062019", False, [D(2019, 6, 6)], "date", "zeros-lost"),
        ("1112024", False, [D(2024, 1, 11), D(2024, 11, 1)], "date", "zeros-lost"),
        ("1312024", False, [D(2024, 1, 31)], "date", "zeros-lost"),
        ("662018", False, [D(2018, 6, 6)], "date", "zeros-lost"),
        ("121224", False, [], "unreadable", ""),
        ("12102024M", False, [D(2024, 12, 10)], "date", "trailing-letter"),
        ("12102024 m", False, [D(2024, 12, 10)], "date", "trailing-letter"),
        ("99999999", False, [], "never", ""),
        ("99/99/9999", False, [], "never", ""),
        ("12319999", False, [], "never", ""),
        ("99991231", True, [], "never", ""),
        ("INDEF", False, [], "never", ""),
        ("indef", False, [], "never", ""),
        ("00000000", False, [], "none", ""),
        ("MIL", False, [], "none", ""),
        ("NONE", False, [], "none", ""),
        ("unavl", False, [], "none", ""),
        ("", False, [], "none", ""),
        ("13452024", False, [], "unreadable", ""),
        ("02302024", False, [], "unreadable", ""),
        ("02292023", False, [], "unreadable", ""),
        ("02292024", False, [D(2024, 2, 29)], "date", ""),
        ("01011899", False, [], "unreadable", ""),
        ("١٢١٠٢٠٢٤", False, [], "unreadable", ""),
        ("²²²²²²²²", False, [], "unreadable", ""),
        ("soon", False, [], "unreadable", ""),
    ],
)  # AAMVA DL/ID Card Design Standard, Annex D (forms and non-dates); the rest as cards in the wild carry them
def test_dates(text, year_first, days, nature, repair):
    found = read_date(text, year_first)
    assert (list(found.days), found.nature) == (days, nature)
    if days:
        assert found.repair == repair


ANY_DAY = st.dates(D(1900, 1, 1), D(2099, 12, 31))


@given(ANY_DAY, st.booleans())
def test_eight_digits_are_read_in_either_order(day, year_first):
    for form, own in (("%Y%m%d", True), ("%m%d%Y", False)):
        found = read_date(day.strftime(form), year_first)
        assert found.days == (day,)
        assert (found.repair == "") == (own == year_first)


@given(ANY_DAY)
def test_lost_zeros_never_lose_the_day(day):
    assert day in read_date(f"{day.month}{day.day}{day.year}", False).days


@given(st.text(max_size=12) | st.text("0123456789/-. M", max_size=12), st.booleans())
def test_any_text_gives_days_or_says_why_not(text, year_first):
    found = read_date(text, year_first)
    assert bool(found.days) == (found.nature == "date")
    assert len(found.days) <= 2
