"""A house's directory: good rows are kept, bad ones named."""

from __future__ import annotations

import hashlib
import timeit

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.routing import BadRow, Directory, Entry, check_digit

TEXT = """number,name,state,status,successor
011394776,Specimen Bank of Boston,MA,active,
051097347,"Specimen, Virginia",VA,Merged,053098823
021393454,Wrong Sum,NY,active,
011394776,Twice,MA,active,
121093747,No Such State,XX,active,
125098418,Odd Status,WA,asleep,
101093275,Too Few,MO
111096602,Bad Successor,TX,merged,12
"an open quote
322296725,Specimen Pacific,CA,,
"""


def test_good_rows_are_looked_up() -> None:
    directory = Directory.parse(TEXT)
    assert directory.lookup("011394776") == Entry("011394776", "Specimen Bank of Boston", "MA", "active", "")
    assert directory.lookup("051097347") == Entry("051097347", "Specimen, Virginia", "VA", "merged", "053098823")
    assert directory.lookup("322296725") == Entry("322296725", "Specimen Pacific", "CA", "active", "")
    assert directory.lookup("121093747") is None
    assert len(directory.entries) == 3


def test_each_bad_row_is_named_with_its_line() -> None:
    assert Directory.parse(TEXT).bad_rows == (
        BadRow(4, "Expected the check digit 3 after the first eight digits, read 4."),
        BadRow(5, "Expected each number once, read 011394776 again."),
        BadRow(6, "Expected the two letters of a state, read 'XX'."),
        BadRow(7, "Expected a status of active, merged, retired, read 'asleep'."),
        BadRow(8, "Expected 5 cells, read 3."),
        BadRow(9, "Expected nine digits, read 2 digits."),
        BadRow(10, "Expected 5 cells, read 1."),
    )


@pytest.mark.parametrize(
    "text",
    [
        "\ufeffnumber;name\r\n011394776;Specimen\r\n",
        "Number,Name\n\n\n011394776, Specimen \n",
        "name,number\rSpecimen,011394776\r",
    ],
)
def test_marks_separators_and_line_ends_of_spreadsheets(text: str) -> None:
    directory = Directory.parse(text)
    assert directory.bad_rows == ()
    assert directory.lookup("011394776") == Entry("011394776", "Specimen", "", "active", "")


@pytest.mark.parametrize("heading", ["name,state", "number,nmae", "number,number", "011394776,Specimen"])
def test_without_its_heading_nothing_is_read(heading: str) -> None:
    directory = Directory.parse(heading + "\n011394776,x\n")
    shown = heading.replace(",", ", ").casefold()
    assert directory.entries == {}
    assert directory.bad_rows == (
        BadRow(1, f"Expected a heading with number, name, state, status, successor, read {shown}."),
    )


def test_the_digest_is_of_the_text() -> None:
    assert Directory.parse(TEXT).digest == hashlib.sha256(TEXT.encode()).hexdigest()
    assert Directory.parse(TEXT).digest != Directory.parse(TEXT + " ").digest


@given(st.text(max_size=300))
@settings(max_examples=100)
def test_any_text_gives_a_directory(text: str) -> None:
    directory = Directory.parse("number,name\n" + text)
    assert all(row.line >= 1 and row.message.startswith("Expected") for row in directory.bad_rows)


def test_looking_up_takes_as_long_in_a_large_directory_as_in_a_small_one() -> None:
    numbers = [f"0{i:07}" + check_digit(f"0{i:07}") for i in range(1_000_000, 1_020_000)]
    large = Directory.parse("number\n" + "\n".join(numbers))
    small = Directory.parse("number\n" + numbers[0])
    assert len(large.entries) == 20_000
    times = [min(timeit.repeat(lambda d=d: d.lookup(numbers[0]), number=20_000, repeat=5)) for d in (small, large)]
    assert times[1] < 5 * times[0]
