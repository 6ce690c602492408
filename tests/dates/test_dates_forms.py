"""Every form people write, on the day of tender 24 November 2026 (a Tuesday)."""

from __future__ import annotations

from datetime import date

import pytest

from checkface import dates
from checkface.dates.calendar import MONTHS
from checkface.span import Fault, Span

ON = date(2026, 11, 24)
MESES = (
    "enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre", "noviembre",
    "diciembre",
)  # fmt: skip


def read(text: str, on: date = ON) -> dates.CheckDate:
    found = dates.read(text, on)
    assert not isinstance(found, Fault), found.message
    return found


@pytest.mark.parametrize(
    ("text", "form"),
    [
        ("11/24/2026", "month-day-year"),
        ("11-24-2026", "month-day-year"),
        ("11.24.2026", "month-day-year"),
        ("11 24 2026", "month-day-year"),
        ("11/24-2026", "month-day-year"),
        ("11 / 24 / 2026", "month-day-year"),
        ("11//24//26", "month-day-year"),
        ("11\\24\\26", "month-day-year"),
        ("11|24|26", "month-day-year"),
        ("11⁄24⁄26", "month-day-year"),
        ("11/24/26", "month-day-year"),
        ("11-24-26", "month-day-year"),
        ("11.24.26", "month-day-year"),
        ("11–24–26", "month-day-year"),
        ("11/24/'26", "month-day-year"),
        ("11/24 20 26", "month-day-year"),
        ("11/24, 20__26", "month-day-year"),
        (" 11/24/2026. ", "month-day-year"),
        ("Date: 11/24/2026", "month-day-year"),
        ("24/11/2026", "day-month-year"),
        ("24-11-2026", "day-month-year"),
        ("2026-11-24", "year-month-day"),
        ("2026/11/24", "year-month-day"),
        ("2026 11 24", "year-month-day"),
        ("11242026", "eight-digits"),
        ("20261124", "eight-digits"),
        ("24112026", "eight-digits"),
        ("112426", "six-digits"),
        ("Nov 24, 2026", "month-name"),
        ("NOV. 24, 2026", "month-name"),
        ("November 24 2026", "month-name"),
        ("November 24th 2026", "month-name"),
        ("November 24th, 2026", "month-name"),
        ("Nov. 24 '26", "month-name"),
        ("Nov. 24 ’26", "month-name"),
        ("Nov 24 26", "month-name"),
        ("Nov-24-26", "month-name"),
        ("Nov/24/2026", "month-name"),
        ("24 Nov 2026", "month-name"),
        ("24-Nov-26", "month-name"),
        ("24NOV26", "month-name"),
        ("24Nov2026", "month-name"),
        ("2026 Nov 24", "month-name"),
        ("24th day of November 2026", "month-name"),
        ("the 24th day of November, 2026", "month-name"),
        ("this 24th day of November, A.D. 2026", "month-name"),
        ("twenty-fourth day of November, 2026", "month-name"),
        ("November twenty fourth 2026", "month-name"),
        ("Novr 24 2026", "month-name"),
        ("Novemb. 24 2026", "month-name"),
        ("Tuesday November 24, 2026", "month-name"),
        ("Tue., Nov. 24, 2026", "month-name"),
        ("24 de noviembre de 2026", "month-name"),
        ("martes 24 de noviembre de 2026", "month-name"),
        ("24 NOV 20 26", "month-name"),
        ("Nov 24, 20__26", "month-name"),
        ("XI-24-26", "roman-month"),
        ("XI/24/2026", "roman-month"),
        ("24-XI-2026", "roman-month"),
        ("24.xi.26", "roman-month"),
    ],
)
def test_forms_that_mean_the_day_of_tender(text: str, form: str) -> None:
    found = read(text)
    assert (found.date, found.candidates, found.form) == (ON, (ON,), form)
    assert not found.order_unclear
    assert not found.weekday_contradicts
    assert found.repairs == ()
    assert found.january_slip is None
    assert found.span.of(text) == text.strip()


@pytest.mark.parametrize(
    ("text", "month"),
    [
        *((name[:3], month) for month, name in enumerate(MONTHS, 1)),
        *((name[:3], month) for month, name in enumerate(MESES, 1)),
        *((name, month) for month, name in enumerate(MESES, 1)),
        *zip(["I", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X", "XI", "XII"], [1, *range(3, 13)], strict=True),
        ("Sept", 9),
        ("setiembre", 9),
        ("Decr", 12),
    ],
)  # fmt: skip
def test_every_name_of_a_month(text: str, month: int) -> None:
    assert read(f"{text} 15 2026").date == date(2026, month, 15)
    assert read(f"15 {text.upper()} 2026").date == date(2026, month, 15)


@pytest.mark.parametrize(
    ("text", "month", "span"),
    [
        ("Novmber 24 2026", 11, (0, 7)),
        ("24 Novemebr 2026", 11, (3, 11)),
        ("Febuary 3 2026", 2, (0, 7)),
        ("Feburary 3 2026", 2, (0, 8)),
        ("Janurary 3 2026", 1, (0, 8)),
        ("Septmber 3 2026", 9, (0, 8)),
        ("Agust 3 2026", 8, (0, 5)),
        ("Ocotber 3 2026", 10, (0, 7)),
        ("Marh 3 2026", 3, (0, 4)),
        ("novienbre 3 2026", 11, (0, 9)),
        ("N0v 3 2026", 11, (0, 3)),
        ("0ct 3 2026", 10, (0, 3)),
        ("Ju1y 3 2026", 7, (0, 4)),
        ("5ept 3 2026", 9, (0, 4)),
    ],
)
def test_a_misspelled_month_is_repaired_and_said(text: str, month: int, span: tuple[int, int]) -> None:
    found = read(text)
    assert found.date is not None
    assert found.date.month == month
    assert [(repair.span, repair.word) for repair in found.repairs] == [(Span(*span), f"{found.date:%B}")]


def test_a_misspelled_weekday_is_repaired_too() -> None:
    found = read("Wendesday Nov 25 2026")
    assert found.repairs == (dates.RepairedWord(Span(0, 9), "Wednesday"),)
    assert not found.weekday_contradicts


@pytest.mark.parametrize("text", ["Friday November 24, 2026", "Wed 11/24/2026", "viernes 24 de noviembre de 2026"])
def test_a_weekday_that_contradicts_the_date_is_said(text: str) -> None:
    found = read(text)
    assert found.date == ON
    assert found.weekday_contradicts


def test_a_weekday_fits_a_date_without_year_if_it_fits_any_candidate() -> None:
    assert not read("Tuesday Nov 24").weekday_contradicts  # 2026
    assert not read("Wednesday Nov 24").weekday_contradicts  # 2027
    assert read("Friday Nov 24").weekday_contradicts


@pytest.mark.parametrize(
    ("text", "day", "other"),
    [
        ("11/12/2026", date(2026, 11, 12), date(2026, 12, 11)),
        ("3-4-26", date(2026, 3, 4), date(2026, 4, 3)),
        ("01.02.2026", date(2026, 1, 2), date(2026, 2, 1)),
        ("1 2 26", date(2026, 1, 2), date(2026, 2, 1)),
        ("11122026", date(2026, 11, 12), date(2026, 12, 11)),
        ("26-11-24", date(2026, 11, 24), date(2024, 11, 26)),
        ("26/11/24", date(2026, 11, 24), date(2024, 11, 26)),
        ("26 11 24", date(2026, 11, 24), date(2024, 11, 26)),
        ("24.11.26", date(2026, 11, 24), date(2024, 11, 26)),
        ("24/11/26", date(2026, 11, 24), date(2024, 11, 26)),
    ],
)
def test_an_order_that_is_not_settled_is_said(text: str, day: date, other: date) -> None:
    found = read(text)
    assert found.order_unclear
    assert (found.date, found.candidates) == (day, (day, other))
    assert found.by_custom == (day.month == int(text[:2].strip("/-. ")))


@pytest.mark.parametrize(
    "text",
    [
        "11/11/2026",
        "5/5/26",
        "2026-11-12",
        "Nov 12 2026",
        "12 Nov 26",
        "11/13/2026",
        "13/11/2026",
        "24/11/'26",
        "26/11/45",
    ],
)
def test_an_order_that_is_settled(text: str) -> None:
    assert not read(text).order_unclear


@pytest.mark.parametrize("text", ["261124", "II/24/2026"])
def test_without_a_customary_order_no_day_is_given(text: str) -> None:
    found = read(text)
    assert found.date is None
    assert found.order_unclear
    assert ON in found.candidates
    assert len(found.candidates) == 2


@pytest.mark.parametrize(
    ("text", "candidates"),
    [
        ("11/24", (date(2026, 11, 24), date(2027, 11, 24))),
        ("Nov 24", (date(2026, 11, 24), date(2027, 11, 24))),
        ("the 24th of November", (date(2026, 11, 24), date(2027, 11, 24))),
        ("Nov 24, 20__", (date(2026, 11, 24), date(2027, 11, 24))),
        ("24/11", (date(2026, 11, 24), date(2027, 11, 24))),
        ("12/24", (date(2026, 12, 24), date(2025, 12, 24))),
        ("2/29", (date(2028, 2, 29), date(2024, 2, 29))),
        ("11/12", (date(2026, 11, 12), date(2027, 11, 12), date(2026, 12, 11), date(2025, 12, 11))),
    ],
)
def test_a_missing_year_is_not_guessed(text: str, candidates: tuple[date, ...]) -> None:
    found = read(text)
    assert found.date is None
    assert found.candidates == candidates
    assert not found.two_digit_year
    assert not found.year_written


def test_a_year_of_two_digits_goes_by_the_day_of_tender() -> None:
    assert read("11/24/26").two_digit_year
    assert not read("11/24/2026").two_digit_year
    assert read("1/5/00", date(2099, 12, 31)).date == date(2100, 1, 5)
    assert read("12/31/99", date(2100, 1, 2)).date == date(2099, 12, 31)
    assert read("12/31/99", date(2000, 1, 2)).date == date(1999, 12, 31)
    assert read("11/24/46").date == date(2046, 11, 24)
    assert read("11/24/47").date == date(1947, 11, 24)


@pytest.mark.parametrize(
    ("text", "on", "slip"),
    [
        ("01/05/2026", date(2027, 1, 7), date(2027, 1, 5)),
        ("1/5/26", date(2027, 1, 5), date(2027, 1, 5)),
        ("Jan 31, 2026", date(2027, 2, 28), date(2027, 1, 31)),
        ("01/08/2026", date(2027, 1, 7), None),
        ("01/31/2026", date(2027, 3, 1), None),
        ("02/01/2026", date(2027, 2, 3), None),
        ("01/05/2025", date(2027, 1, 7), None),
        ("01/05/2027", date(2027, 1, 7), None),
    ],
)
def test_the_january_slip(text: str, on: date, slip: date | None) -> None:
    assert read(text, on).january_slip == slip


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("02/29/2024", date(2024, 2, 29)),
        ("02/29/2000", date(2000, 2, 29)),
        ("2/29/28", date(2028, 2, 29)),
        ("12/31/2026", date(2026, 12, 31)),
        ("01/01/2027", date(2027, 1, 1)),
        ("11/24/1926", date(1926, 11, 24)),
        ("11/24/2126", date(2126, 11, 24)),
    ],
)
def test_edges_of_the_calendar(text: str, day: date) -> None:
    assert read(text).date == day
