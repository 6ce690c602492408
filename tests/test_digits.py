"""Runs of digits: what each field shows of them, and that looking for them takes time in proportion."""

from __future__ import annotations

import doctest
import time
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

import checkface as cf
from checkface import cells, digits, masking
from checkface.digits import MASK, SHOWN, hide, hide_own, own

SIGNS = " -./:,|'\u2019\u00a0\u200b\u2060\n_\u2013"


@pytest.mark.parametrize("module", [digits, cells], ids=lambda module: module.__name__)
def test_examples(module: object) -> None:
    result = doctest.testmod(module)  # type: ignore[arg-type]
    assert result.attempted
    assert not result.failed


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [
        ("prose", "12345 Example Lane, 627011", "12345 Example Lane, 627011"),
        ("prose", "4560112", "••••112"),
        ("prose", "valid until 11/24/2026", "valid until 11/24/2026"),
        ("counter", "114201", "114201"),
        ("counter", "1142019", "••••019"),
        ("reason", "12345", "•••45"),
        ("serial", "123456789012", "123456789012"),
        ("serial", "1234567890123", "•••••••••0123"),
        ("serial", "1234 5678", "•••• 5678"),
        ("fraction", "70-9897/710", "70-9897/710"),
        ("fraction", "101-9897/1213", "101-9897/1213"),
        ("fraction", "123-45-6789", "•••-••-••••"),
        ("date", "2026-11-24 00:00", "••••-••-•• 00:00"),
        ("date", "1|1|2|4|2|0|2|6", "1|1|2|4|2|0|2|6"),
        ("date", "45601122", "••••1122"),
        ("figures", "$45,601.22", "$45,601.22"),
        ("figures", "45,601 22/100", "45,601 22/100"),
        ("figures", "123456789", "•••••••••"),
        ("figures", "4560 1122", "•••• 1122"),
        ("id", "20261124-0007", "20261124-0007"),
        ("id", "0042/20261124/1043", "0042/20261124/1043"),
        ("id", "1000000000000001", "••••••••••••0001"),
        ("file", "checks-20261124-2143.csv", "checks-20261124-2143.csv"),
        ("file", "45601122.csv", "••••1122.csv"),
        ("message", "read 2026-11-24, 27 days before; $1,234,567.00", "read 2026-11-24, 27 days before; $1,234,567.00"),
        ("message", "read 45.10/100", "read 45.10/100"),
        ("message", "read $219,476,083.00", "read $•••,•••,•83.00"),
    ],
)
def test_what_each_field_shows(field: str, text: str, said: str) -> None:
    assert hide(text, field) == said


def test_every_limit_has_its_reason_and_is_used() -> None:
    assert all(limit.why and limit.most >= digits.FEWEST for limit in SHOWN.values())


@given(st.text(alphabet=f"0123456789٣²①a{SIGNS}", max_size=60), st.sampled_from(sorted(SHOWN)))
def test_a_mask_keeps_the_length_and_covers_digits_only(text: str, field: str) -> None:
    said = hide(text, field)
    assert len(said) == len(text)
    assert all(new in (old, MASK) and (new == old or old.isdigit()) for old, new in zip(text, said, strict=True))
    assert hide(said, field) == said


@given(st.text(alphabet="0123456789", min_size=4, max_size=17), st.lists(st.text(SIGNS, max_size=3), min_size=16))
def test_an_own_number_of_any_length_from_four_on_is_masked_however_parted(number: str, signs: list[str]) -> None:
    parted = "".join(digit + sign for digit, sign in zip(number, [*signs, *[""] * 20], strict=False)).rstrip(SIGNS)
    said = hide_own(f"no {parted} it is", own(number))
    left = sum(map(str.isdigit, said))
    assert left == len(number) if not number.strip("0") else left <= 4


@pytest.mark.parametrize("account", ["4561", "45601", "456011", "4560112", "45601122334455667"])
def test_an_own_account_is_masked_wherever_it_stands(account: str) -> None:
    face = {"micr": f"⑆071098973⑆ {account}⑈ 1043", "memo": f"acct {account}", "payee": " ".join(account)}
    got = cf.assess({"id": account, "face": face, "counter": {"store": account, "lane": account, "employee": account}})
    assert account not in "".join(c for c in got.model_dump_json() if c not in " •")


def lookers() -> dict[str, Callable[[str], object]]:
    numbers = own("45601122", "1100", "S53042986", "000123")
    found: dict[str, Callable[[str], object]] = {field: lambda text, field=field: hide(text, field) for field in SHOWN}  # type: ignore[misc]
    found["own"] = lambda text: hide_own(text, numbers)
    found["parted"] = lambda text: digits.hide_parted(text, numbers)
    found["number"] = masking.number
    found["inert"] = cells.inert
    found["shown"] = cells.shown
    found["dumps"] = cells.dumps
    return found


UNITS = [
    "1",
    "0",
    "1 ",
    "1 - ",
    "11/24/2026, ",
    "1,",
    "4560 1122 ",
    "20261124-",
    "2 0 2 6 ",
    "²",
    "1\u200b",
    ";= ",
    "; ",
    " =",
    "0001100",
    "1|",
    ",,,",
    "a1",
]


@pytest.mark.parametrize("looker", sorted(lookers()))
def test_twice_the_length_takes_about_twice_the_time(looker: str) -> None:
    look = lookers()[looker]
    look("1 2")  # compiled once
    for unit in UNITS:
        spent = [min(_spent(look, unit * (length // len(unit))) for _ in range(3)) for length in (4_000, 32_000)]
        # Eight times the length: in proportion it is about 8, with the square of it 64.
        assert spent[1] < 26 * spent[0] + 0.004, (unit, spent)


def _spent(look: Callable[[str], object], text: str) -> float:
    began = time.process_time()
    look(text)
    return time.process_time() - began
