"""No full account or document number is anywhere: not in the files, not in a repr, not in an error."""

from __future__ import annotations

import io
import logging
import os
import stat
from pathlib import Path

import pytest
from ledger_world import ACCOUNT, BANK, DAY, MOMENT, assessed, entry

from checkface import digits
from checkface.ledger import Ledger, Override, keys, till, transfer, unpaid
from checkface.ledger.errors import LedgerError, TillError

DOCUMENT = "S530-4407-9921"
SECRETS = [ACCOUNT, "9876543210987", DOCUMENT, DOCUMENT.replace("-", ""), "S5304407"]


def test_the_bytes_on_disk_hold_no_number(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.DEBUG)
    file = tmp_path / "shop.ledger"
    with Ledger.open(file) as ledger:
        which = till.open(ledger, store="7", lane="3", by="114", at=MOMENT).id
        why = Override(f"knows account {ACCOUNT} and card {DOCUMENT}", "MG")
        till.take(ledger, which, assessed(documents=(DOCUMENT,)), "returned", by="114", at=MOMENT, override=why)
        ledger.record(entry("7", drawer=f"PAT DOE {ACCOUNT}", documents=(DOCUMENT,), employee=ACCOUNT))
        ledger.item_seen(BANK, ACCOUNT, "1043")
        unpaid.add(ledger, unpaid.Return(BANK, "9876543210987", DAY, "88", 100, f"closed {ACCOUNT}"))
        lines = ["routing,account,reason", f"{BANK},9876543210987,no account 9876543210987", f"1,{ACCOUNT}"]
        imported = unpaid.import_returns(ledger, lines, on=DAY)
        out = io.StringIO()
        transfer.export(ledger, out)
        told = [repr(ledger), repr(ledger.tokens), repr(imported), out.getvalue(), caplog.text]
        told += [repr(ledger.items(BANK, ACCOUNT)), repr(unpaid.show(ledger)), repr(till.report(ledger, which))]
        told += [repr(entry(documents=(DOCUMENT,))), repr(unpaid.Return(BANK, ACCOUNT, DAY))]
        with pytest.raises(LedgerError) as error:
            ledger.record(entry("8", cents=-1))
        told += [str(error.value), repr(error.value), str(error.value.__cause__)]
        for path in tmp_path.iterdir():  # while it is open, so that the write-ahead log is there too
            for secret in SECRETS:
                assert secret.encode() not in path.read_bytes(), path.name
    for text in told:
        for secret in SECRETS:
            assert secret not in text
    assert (tmp_path / "shop.ledger.key").read_text().strip() not in "".join(told)


@pytest.mark.parametrize("where", ["store", "lane", "by"])
def test_what_stands_in_clear_can_be_no_number_of_anybody(tmp_path: Path, where: str) -> None:
    with Ledger.open(tmp_path / "shop.ledger") as ledger:
        given = {"store": "7", "lane": "3", "by": "114"} | {where: "4407-9921 7"}
        with pytest.raises(LedgerError, match=r"Expected at most 6 digits for .*, read 9"):
            till.open(ledger, **given, at=MOMENT)


@pytest.mark.parametrize("umask", [0o000, 0o022, 0o277])
def test_every_file_is_for_its_owner_only_whatever_the_umask(tmp_path: Path, umask: int) -> None:
    before = os.umask(umask)
    try:
        with Ledger.open(tmp_path / "shop.ledger") as ledger:
            ledger.record(entry())
            modes = {path.name: stat.S_IMODE(path.stat().st_mode) for path in tmp_path.iterdir()}
    finally:
        os.umask(before)
    assert modes == dict.fromkeys(("shop.ledger", "shop.ledger-shm", "shop.ledger-wal", "shop.ledger.key"), 0o600)


def test_a_ledger_open_to_others_is_closed_to_them_and_its_key_refused(tmp_path: Path) -> None:
    file = tmp_path / "shop.ledger"
    with Ledger.open(file) as ledger:
        assert ledger.database.was_open is None
    file.chmod(0o664)
    with Ledger.open(file) as ledger:
        assert ledger.database.was_open == 0o664
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    (tmp_path / "shop.ledger.key").chmod(0o640)
    with pytest.raises(LedgerError, match="found mode 640"):
        Ledger.open(file)


def test_no_link_is_followed_to_a_ledger(tmp_path: Path) -> None:
    (tmp_path / "shop.ledger").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(LedgerError, match="symbolic link"):
        Ledger.open(tmp_path / "shop.ledger", bytes(32))
    assert not (tmp_path / "elsewhere").exists()


def test_a_token_is_of_use_only_under_its_key() -> None:
    one, other = keys.Tokens(bytes(32)), keys.Tokens(bytes(range(32)))
    assert one.account(BANK, ACCOUNT) != other.account(BANK, ACCOUNT)
    # RFC 4231 has no such case; this one was worked out with `openssl dgst -sha256 -mac HMAC`.
    assert one.document("D1").hex() == "4419a6c2d17b0caf2816651050278ca1f391879bf68204f31b6a80405a1710e1"  # type: ignore[union-attr]


def test_tokens_of_different_things_never_meet() -> None:
    tokens = keys.Tokens(bytes(32))
    made = [
        tokens.account("1", "23"), tokens.account("12", "3"), tokens.item("1", "2", "3"), tokens.item("12", "3", "4"),
        tokens.document("123"), tokens.document("12"),
    ]  # fmt: skip
    assert len(set(made)) == len(made)
    assert all(token is not None and len(token) == 32 for token in made)


@pytest.mark.parametrize(
    ("number", "shown"),
    [
        ("", ""),
        ("1", ""),
        ("12", "2"),
        ("123456", "456"),
        ("12345678", "5678"),
        ("A-12 34", "34"),
        ("⑆1234567890⑈", "7890"),
    ],
)
def test_at_most_the_last_four_and_never_most_of_it(number: str, shown: str) -> None:
    assert keys.last_four(number) == shown


@pytest.mark.parametrize(
    ("text", "concealed"),
    [
        ("PAT DOE", "PAT DOE"),
        ("R01 on 11/24", "R01 on 11/24"),
        ("acct 1234-5678 9012", "acct ••••-•••• 9012"),
        ("1 2\u200b3\n4 / 5,6|7'8", "• •\u200b•\n• / 5,6|7'8"),
        ("１２３４５６ and ①②③④⑤⑥⑦", "•••４５６ and ••••⑤⑥⑦"),
        ("SSN 123-45-6789", "SSN •••-••-••••"),
        ("lane 3 at 9:43, twice in 2 days", "lane 3 at 9:43, twice in 2 days"),
        ("12345", "•••45"),
        ("1234", "1234"),
    ],
)
def test_long_numbers_in_free_text_are_masked(text: str, concealed: str) -> None:
    assert digits.hide(text, "reason") == concealed


@pytest.mark.parametrize("second", ["ab", "AB", "aB", " Ab "])
def test_the_clerks_own_initials_are_no_second_persons_however_written(second: str, tmp_path: Path) -> None:
    with Ledger.open(tmp_path / "shop.ledger") as ledger:
        which = till.open(ledger, store="7", lane="3", by="Ab", at=MOMENT).id
        with pytest.raises(TillError, match="read the clerk's own"):
            till.take(ledger, which, assessed(), "returned", by="aB", at=MOMENT, override=Override("known", second))


def test_the_ledger_keeps_no_own_number_of_six_digits(tmp_path: Path) -> None:
    file = tmp_path / "shop.ledger"
    with Ledger.open(file) as ledger:
        ledger.record(entry("730519", account="730519", employee="730519", drawer="730 519"))
        for path in tmp_path.iterdir():
            assert b"730519" not in path.read_bytes()
            assert b"730 519" not in path.read_bytes()
