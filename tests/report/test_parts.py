"""What one part made of one reading, as a page and as JSON."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

import checkface as cf
from checkface.report import part, part_text

ON = date(2026, 11, 24)


def read(name: str, text: str) -> Any:
    readers = {
        "micr": cf.micr.read,
        "routing": cf.routing.read,
        "fraction": cf.routing.read_fraction,
        "words": cf.amounts.read_words,
        "figures": cf.amounts.read_figures,
        "date": lambda raw: cf.dates.read(raw, ON),
    }
    return part(name, text, readers[name](text))


@pytest.mark.parametrize(
    ("name", "text", "page"),
    [
        (
            "micr",
            "T071098973T 45601122O 1043",
            """\
micr     | T071098973T ••••1122O 1043
         |  ~~~~~~~~~ routing
         |             ~~~~~~~~ account
         |                       ~~~~ serial
notation   toad
country    US
routing    071098973
checksum   yes
account    ••••1122
serial     1043
unread     no""",
        ),
        (
            "routing",
            "071098974",
            """\
routing | 071098974
        | ^^^^^^^^^ Expected the check digit 3 after the first eight digits, read 4.""",
        ),
        (
            "routing",
            "071098973",
            """\
routing  | 071098973
number     071098973
checksum   yes
series     primary
district   7
on paper   yes""",
        ),
        (
            "fraction",
            "70-9897/710",
            """\
fraction    | 70-9897/710
            | ~~ prefix
            |    ~~~~ institution
            |         ~~~ symbol
prefix        70
institution   9897
symbol        0710
routing       071098973
states        IL
district      7""",
        ),
        (
            "words",
            "Forty-fife and 10/100",
            """\
words      | Forty-fife and 10/100
           | ~~~~~~~~~~ dollars
           |                ~~~~~~ cents
cents        $45.10
verdict      review
candidates   $45.10 (as repaired)
note         "fife" was taken for five""",
        ),
        (
            "figures",
            "$45.10",
            """\
figures    | $45.10
           |  ~~~~~ amount
cents        $45.10
verdict      clear
candidates   $45.10 (as written)""",
        ),
        (
            "date",
            "Febuary 30 2026",
            """\
date | Febuary 30 2026
     |         ^^ Expected a day from 1 to 28 after February 2026, read 30.""",
        ),
    ],
)
def test_pages(name: str, text: str, page: str) -> None:
    assert part_text(read(name, text)) == page


def test_json() -> None:
    assert read("date", "11/24/26").wire() == {
        "reading": "date",
        "text": "11/24/26",
        "fields": {
            "date": "2026-11-24",
            "candidates": ["2026-11-24"],
            "form": "month-day-year",
            "order_unclear": False,
            "two_digit_year": True,
            "january_slip": None,
            "weekday_contradicts": False,
        },
        "spans": {"date": [0, 8]},
        "faults": [],
        "notes": [],
    }


def test_a_fault_as_json() -> None:
    assert read("routing", "071098974").wire()["faults"] == [
        {
            "kind": "routing-checksum",
            "start": 0,
            "end": 9,
            "message": "Expected the check digit 3 after the first eight digits, read 4.",
        }
    ]


@pytest.mark.parametrize("text", ["T071098973T 45601122O 1043", "45601122", "T071098973T 45601122"])
def test_an_account_is_masked_wherever_it_stands(text: str) -> None:
    told = read("micr", text)
    assert "45601122" not in part_text(told)
    assert "45601122" not in str(told.wire())
    assert "45601122" in part_text(part("micr", text, cf.micr.read(text), reveal=True))
