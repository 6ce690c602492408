"""Dates as machines, forms and people in two languages deliver them: the day written is read, or left open, never
another one told for certain."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from checkface import dates
from checkface.dates.calendar import MONTHS, days_in
from checkface.span import Fault

ON = date(2026, 11, 24)
NEAR = st.integers(-400, 30).map(lambda apart: ON + timedelta(apart))
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
DIAS = ("lunes", "martes", "miércoles", "jueves", "viernes", "sábado", "domingo")
MESES = (
    "enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre", "noviembre",
    "diciembre",
)  # fmt: skip
FULL_WIDTH = str.maketrans("0123456789/", "０１２３４５６７８９／")
Write = Callable[[date], str]


def certain(found: dates.CheckDate | Fault) -> date | None:
    """The day that is told without any doubt."""
    if isinstance(found, Fault) or found.order_unclear or found.repairs or found.weekday_contradicts:
        return None
    return found.date


FRAMED: dict[str, Write] = {
    "stars": lambda d: f"**{d:%m/%d/%Y}**",
    "stars before": lambda d: f"***{d:%m/%d/%y}",
    "stars apart": lambda d: f"* {d:%m-%d-%Y} *",
    "hashes": lambda d: f"##{MONTHS[d.month - 1]} {d.day}, {d.year}##",
    "full width": lambda d: f"{d:%m/%d/%Y}".translate(FULL_WIDTH),
    "comb": lambda d: "|" + "|".join(f"{d:%m%d%Y}") + "|",
    "comb of six": lambda d: "│" + "│".join(f"{d:%m%d%y}") + "│",
    "brackets": lambda d: "".join(f"[{c}]" if c.isdigit() else c for c in f"{d:%m/%d/%Y}"),
    "bracketed groups": lambda d: f"[{d:%m}] [{d:%d}] [{d:%Y}]",
    "spaced": lambda d: " ".join(f"{d:%m%d%Y}"),
    "spaced with slashes": lambda d: " ".join(f"{d:%m/%d/%y}"),
    "underlined": lambda d: "_".join(f"{d:%m/%d/%Y}"),
}


@given(NEAR, st.sampled_from(sorted(FRAMED)))
def test_what_a_form_prints_around_a_date_changes_nothing(day: date, way: str) -> None:
    text = FRAMED[way](day)
    found, plain = dates.read(text, ON), dates.read(f"{day:%m/%d/%Y}", ON)
    assert isinstance(found, dates.CheckDate)
    assert isinstance(plain, dates.CheckDate)
    assert found.repairs == ()
    assert found.span.of(text)[-1] in "0123456789|│])" + "".join(map(chr, range(0xFF10, 0xFF1A)))
    assert found.order_unclear or found.date == day
    assert day in found.candidates
    if way not in ("comb of six", "spaced") and way != "hashes":
        assert set(found.candidates) == set(plain.candidates)


@given(NEAR, st.data())
def test_a_star_in_the_place_of_a_digit_is_never_passed_over(day: date, data: st.DataObject) -> None:
    text = data.draw(
        st.sampled_from(
            [f"{day:%m/%d/%Y}", f"{day.month}/{day.day}/{day:%y}", f"{MONTHS[day.month - 1]} {day.day}, {day.year}"]
        )
    )
    digits = [place for place, mark in enumerate(text) if mark.isdigit()]
    for place in data.draw(st.lists(st.sampled_from(digits), min_size=1, max_size=3)):
        text = text[:place] + "*" + text[place + 1 :]
    assert certain(dates.read(text, ON)) in (None, day)


@given(NEAR, st.data())
def test_letters_for_digits_are_mended_and_said(day: date, data: st.DataObject) -> None:
    text = data.draw(st.sampled_from([f"{day:%m/%d/%Y}", f"{day:%m-%d-%y}", f"{day:%Y-%m-%d}"]))
    swapped = data.draw(st.sampled_from(["0O", "0o", "1l", "1I", "5S", "8B", "2Z"]))
    assume(swapped[0] in text)
    misread = text.replace(*swapped, 1)
    found, plain = dates.read(misread, ON), dates.read(text, ON)
    if isinstance(found, dates.CheckDate):
        assert isinstance(plain, dates.CheckDate)
        assert plain.candidates[0] in found.candidates
        assert found.repairs or found.form == "roman-month"
        for repair in found.repairs:
            assert repair.word == repair.span.of(misread).replace(swapped[1], swapped[0])


NAMED: dict[str, Write] = {
    "English": lambda d: f"{WEEKDAYS[d.weekday()]}, {d.month}/{d.day}/{d.year}",
    "English short": lambda d: f"{WEEKDAYS[d.weekday()][:3]}. {d.day}/{d.month}/{d.year}",
    "two letters": lambda d: f"{WEEKDAYS[d.weekday()][:2]} {d:%m/%d/%Y}",
    "Spanish": lambda d: f"{DIAS[d.weekday()]} {d.day}/{d.month}/{d.year}",
    "Spanish short": lambda d: f"{DIAS[d.weekday()][:3]}, {d.day}/{d.month}/{d:%y}",
    "Spanish two letters": lambda d: f"{DIAS[d.weekday()][:2]} {d.day}/{d.month}/{d.year}",
    "capitals": lambda d: f"{DIAS[d.weekday()][:3].upper()} {d.day}-{d.month}-{d.year}",
    "behind": lambda d: f"{d.month}/{d.day}/{d.year} ({DIAS[d.weekday()][:3]})",
    "with a month": lambda d: f"{DIAS[d.weekday()][:3]} {d.day} {MESES[d.month - 1][:3]} {d.year}",
    "in full": lambda d: f"{DIAS[d.weekday()]}, {d.day} de {MESES[d.month - 1]} de {d.year}",
}


@given(NEAR, st.sampled_from(sorted(NAMED)))
def test_a_weekday_settles_the_order(day: date, way: str) -> None:
    found = dates.read(NAMED[way](day), ON)
    assert isinstance(found, dates.CheckDate)
    assert not found.weekday_contradicts
    assert day in found.candidates
    assert all(each.weekday() == day.weekday() for each in found.candidates)
    assert found.date == day or found.order_unclear


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("mar 24 2026", date(2026, 3, 24)),
        ("24 mar 2026", date(2026, 3, 24)),
        ("mar, 24/11/2026", ON),
        ("mar. 24 nov 2026", ON),
        ("mar 24 mar 2026", date(2026, 3, 24)),
        ("vi 24 2026", date(2026, 6, 24)),
        ("vi 27 nov 2026", date(2026, 11, 27)),
        ("24 mar 20 26", date(2026, 3, 24)),
        ("Th 11/26/2026", date(2026, 11, 26)),
        ("26th Nov 2026", date(2026, 11, 26)),
        ("do 29/11/2026", date(2026, 11, 29)),
        ("Thursday 12/11/2026", date(2026, 11, 12)),
        ("Friday 12/11/2026", date(2026, 12, 11)),
        ("Fri Nov 20 19 26", date(2026, 11, 20)),
    ],
)
def test_letters_with_two_meanings_go_by_where_they_stand(text: str, day: date) -> None:
    assert certain(dates.read(text, ON)) == day


NO_DAYS = [(y, m, d) for y in range(2024, 2029) for m in range(1, 13) for d in range(days_in(y, m) + 1, 32)]


@given(st.sampled_from(NO_DAYS))
def test_a_day_that_does_not_exist_is_no_day_of_another_century(never: tuple[int, int, int]) -> None:
    year, month, number = never
    short = f"{year % 100:02}"
    for text in (
        f"{number}/{month}/{short}", f"{number}-{month:02}-{short}", f"{month}/{number}/{short}", f"{short}-{month:02}-{number}",
        f"{number:02}{month:02}{short}", f"{month:02}{number:02}{short}", f"{short}{month:02}{number:02}",
        f"{number}/{month}/{year}", f"{year}-{month:02}-{number}", f"{number}{month:02}{year}", f"{MESES[month - 1]} {number} {short}",
    ):  # fmt: skip
        found = dates.read(text, ON)
        assert isinstance(found, Fault), text
        assert found.kind == "date-impossible"
        assert found.read == str(number)
        assert found.span.of(text) == str(number)


@given(NEAR)
def test_a_two_digit_year_in_front_is_told_near_first(day: date) -> None:
    found = dates.read(f"{day:%y-%m-%d}", day)
    assert isinstance(found, dates.CheckDate)
    assert found.candidates[0] == day
    assert found.date in (None, day)
    assert found.order_unclear or found.candidates == (day,)
    assert not found.order_unclear or not found.by_custom


@given(NEAR, st.sampled_from([" ", "__", " __"]))
def test_a_year_behind_a_printed_19_is_doubted(day: date, gap: str) -> None:
    found = dates.read(f"{MONTHS[day.month - 1]} {day.day}, 19{gap}{day:%y}", ON)
    assert isinstance(found, dates.CheckDate)
    assert found.date is None
    assert found.order_unclear
    assert found.candidates == (day, day.replace(year=day.year - 100))


def test_a_printed_19_that_fits_no_later_year_stays() -> None:
    found = dates.read("Nov 24 19 99", ON)
    assert isinstance(found, dates.CheckDate)
    assert found.date == date(1999, 11, 24)


HOLIDAYS = [
    ("Thanksgiving", date(2026, 11, 26)),
    ("Thanksgiving Day,", date(2025, 11, 27)),
    ("Día de Acción de Gracias", date(2026, 11, 26)),
    ("Christmas Eve", date(2026, 12, 24)),
    ("Merry Christmas", date(2026, 12, 25)),
    ("Navidad", date(2025, 12, 25)),
    ("Nochebuena:", date(2026, 12, 24)),
    ("New Year’s Day", date(2026, 1, 1)),
    ("New Years Eve", date(2025, 12, 31)),
    ("Año Nuevo", date(2026, 1, 1)),
    ("Labor Day", date(2026, 9, 7)),
    ("Memorial Day", date(2026, 5, 25)),
    ("Presidents' Day", date(2026, 2, 16)),
    ("Veterans Day", date(2026, 11, 11)),
    ("Martin Luther King, Jr. Day", date(2026, 1, 19)),
    ("Columbus Day", date(2026, 10, 12)),
    ("Juneteenth", date(2026, 6, 19)),
    ("Happy Easter", date(2025, 4, 20)),
    ("Mother's Day", date(2026, 5, 10)),
]


@pytest.mark.parametrize(("name", "day"), HOLIDAYS)
def test_a_holiday_before_the_date(name: str, day: date) -> None:
    """Days of 2025 and 2026 as the Office of Personnel Management lists them, or by the calendar."""
    assert certain(dates.read(f"{name} {day:%m/%d/%Y}", ON)) == day
    assert certain(dates.read(f"{name} {day:%B} {day.day}, {day.year}", ON)) == day
    wrong = dates.read(f"{name} {day + timedelta(7):%m/%d/%Y}", ON)
    assert isinstance(wrong, dates.CheckDate)
    assert wrong.weekday_contradicts == (name != "Happy Easter")


@pytest.mark.parametrize("name", ["Thanksgiving", "Thanksgiving 2026", "Christmas Eve, 2026", "Labor Day November"])
def test_a_holiday_alone_is_no_date(name: str) -> None:
    found = dates.read(name, ON)
    assert isinstance(found, Fault)
    assert found.kind in ("date-incomplete", "date-unreadable")


@pytest.mark.parametrize(
    ("text", "candidates"),
    [
        ("|1/24/2026", (ON, date(2026, 1, 24))),
        ("1|/4/2026", (date(2026, 11, 4), date(2026, 4, 11), date(2026, 1, 4), date(2026, 4, 1))),
        ("1 1 2 0 2 6", (date(2026, 11, 20), date(2026, 1, 1))),
        ("1o nov 2026", (date(2026, 11, 10), date(2026, 11, 1))),
        ("mar 24/11", (date(2026, 11, 24), date(2027, 11, 24), date(2011, 3, 24))),
    ],
)  # fmt: skip
def test_what_can_be_two_days_gives_both(text: str, candidates: tuple[date, ...]) -> None:
    found = dates.read(text, ON)
    assert isinstance(found, dates.CheckDate)
    assert (found.date, found.order_unclear) == (None, True)
    assert set(found.candidates) == set(candidates)


@pytest.mark.parametrize("text", ["1o de noviembre de 2026", "1º de noviembre de 2026", "1ro de nov de 2026"])
def test_the_first_in_spanish(text: str) -> None:
    assert certain(dates.read(text, ON)) == date(2026, 11, 1)


@pytest.mark.parametrize(
    "text", ["__/__/20__", "** **", "[ ][ ]/[ ][ ]/[ ][ ]", "Date: ____", "MM/DD/YYYY", "＿＿／＿＿", "____ 20__", "|_|_|_|_|"]
)  # fmt: skip
def test_an_empty_form_is_blank(text: str) -> None:
    found = dates.read(text, ON)
    assert isinstance(found, Fault)
    assert found.kind == "date-blank"


@pytest.mark.parametrize(
    "text", ["2026-1-24071098973", "2026112499", "99999999999/1/2026", "Nov 123456789 2026", "24071098973", "1/1/" + "9" * 90]
)  # fmt: skip
def test_figures_too_long_for_a_date_are_refused(text: str) -> None:
    found = dates.read(text, ON)
    assert isinstance(found, Fault)
    assert found.kind in ("date-unreadable", "date-length")


@given(st.text("0123456789/-|*[] _.OlIoSBZ'marvi19", max_size=40), st.dates())
def test_any_text_of_furniture_gives_a_date_or_a_fault_within_it(text: str, on: date) -> None:
    found = dates.read(text, on)
    assert 0 <= found.span.start <= found.span.end <= len(text)
    if isinstance(found, dates.CheckDate):
        assert found.candidates
        assert found.date in (None, found.candidates[0])
        assert all(0 <= each.span.start < each.span.end <= len(text) for each in found.repairs)
