"""The house list: added by hand, cleared, and fed from files of returns."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from ledger_world import ACCOUNT, BANK, DAY

from checkface.ledger import Ledger, LedgerError
from checkface.ledger.columns import BadLine
from checkface.ledger.unpaid import Imported, Listed, Return, add, clear, import_returns, read_returns, show

NSF = Return(BANK, ACCOUNT, DAY, "1043", 4510, "R01")
FILE = [
    "Routing,Account,Serial,Amount,Returned on,Reason,Bank's own column\n",
    f"{BANK},{ACCOUNT},1043,$45.10,11/20/2026,R01,x\n",
    f'{BANK},"22 2222-2222",,"1,234.50",,account closed,\n',
]


def test_an_account_is_listed_until_it_is_cleared(ledger: Ledger) -> None:
    add(ledger, NSF)
    assert ledger.is_listed(BANK, "1234-567890")
    assert not ledger.is_listed(BANK, "1")
    assert not ledger.is_listed("041094664", ACCOUNT)
    assert show(ledger) == (Listed("7890", DAY, "1043", 4510, "R01", None, None),)
    later = DAY + timedelta(3)
    assert clear(ledger, BANK, ACCOUNT, on=later, by="MG") == 1
    assert not ledger.is_listed(BANK, ACCOUNT)
    assert show(ledger) == ()
    assert show(ledger, cleared=True) == (Listed("7890", DAY, "1043", 4510, "R01", later, "MG"),)
    assert clear(ledger, BANK, ACCOUNT, on=later, by="MG") == 0


def test_adding_by_hand_lists_again_and_never_twice(ledger: Ledger) -> None:
    for _ in range(2):
        add(ledger, NSF)
    assert len(show(ledger)) == 1
    clear(ledger, BANK, ACCOUNT, on=DAY, by="MG")
    add(ledger, NSF)
    assert ledger.is_listed(BANK, ACCOUNT)
    with pytest.raises(LedgerError, match="Expected an account of 1 to 19 digits, read 0 characters"):
        add(ledger, Return(BANK, "", DAY))
    with pytest.raises(LedgerError, match="Expected the routing number of the account"):
        add(ledger, Return("", ACCOUNT, DAY))


def test_a_file_of_returns(ledger: Ledger) -> None:
    assert import_returns(ledger, FILE, on=DAY) == Imported(2, 0, ())
    assert show(ledger) == (
        Listed("7890", date(2026, 11, 20), "1043", 4510, "R01", None, None),
        Listed("2222", DAY, "", 123450, "account closed", None, None),
    )


def test_a_file_imported_again_lists_nothing_that_was_cleared(ledger: Ledger) -> None:
    import_returns(ledger, FILE, on=DAY)
    clear(ledger, BANK, ACCOUNT, on=DAY, by="MG")
    assert import_returns(ledger, FILE, on=DAY) == Imported(0, 2, ())
    assert not ledger.is_listed(BANK, ACCOUNT)
    assert ledger.is_listed(BANK, "2222222222")


@pytest.mark.parametrize("place", ["sqlite"], indirect=True)
@pytest.mark.parametrize(
    ("line", "said"),
    [
        (f"011394777,{ACCOUNT},,,,", "routing: Expected the check digit"),
        (f"1,{ACCOUNT},,,,", "routing: Expected"),
        (f"{BANK},,,,,", "account: Expected an account of 1 to 19 digits, read 0 characters."),
        (f"{BANK},{'1' * 20},,,,", "account: Expected an account of 1 to 19 digits, read 20 characters."),
        (f"{BANK},none,,,,", "account: Expected an account of 1 to 19 digits, read 4 characters."),
        (f"{BANK},{ACCOUNT},,lots,,", "amount: Expected dollars"),
        (f"{BANK},{ACCOUNT},,,soon,", "returned_on: Expected a date"),
        (f"{BANK},{ACCOUNT},,,,,,,,", "Expected 7 cells, read 10."),
        (f'{BANK},"{ACCOUNT},,,,', "Expected cells separated by commas"),
        (BANK, "account: Expected"),
    ],
)
def test_a_bad_line_is_reported_and_the_rest_goes_on(ledger: Ledger, line: str, said: str) -> None:
    imported = import_returns(ledger, [FILE[0], f"{line}\n", "\n", *FILE[1:]], on=DAY)
    assert imported.added == 2
    (bad,) = imported.bad
    assert bad.line == 2
    assert said in bad.message
    assert ACCOUNT not in bad.message


def test_a_file_without_its_headings_is_refused(ledger: Ledger) -> None:
    with pytest.raises(LedgerError, match="without account"):
        import_returns(ledger, ["routing,number", f"{BANK},1"], on=DAY)
    assert import_returns(ledger, [], on=DAY) == Imported(0, 0, ())
    assert import_returns(ledger, ["\ufeffrouting,account", f"{BANK},{ACCOUNT}"], on=DAY).added == 1


@settings(suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(st.lists(st.text(max_size=60), max_size=6))
def test_no_line_breaks_the_reading_of_a_file(lines: list[str]) -> None:
    found = list(read_returns(["routing,account,amount,returned_on", *lines], on=DAY))
    assert all(isinstance(one, Return | BadLine) for one in found)
    assert len(found) == sum(1 for line in lines if line.strip())
