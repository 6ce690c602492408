"""Items of a cash letter as tenders, flaws as rows skipped, returns for the house list."""

from __future__ import annotations

import io
from datetime import date

import pytest
from plain_letter import SMALL, Check, file, whole

from checkface import micr
from checkface.audit import InputError, Item, Skipped, tenders
from checkface.audit.letters import Returned, micr_line, returns
from checkface.cashletter import Item as LetterItem
from checkface.cashletter import items, read
from checkface.tender import State, Tender

FORMS = [("prefixed", "cp037", b""), ("fixed", "ascii", b""), ("lines", "ascii", b"\n")]


def audited(content: bytes, on: date | None = None) -> tuple[list[Tender], list[Skipped]]:
    rows = list(tenders(io.BytesIO(content), on=on))
    return [row.tender for row in rows if isinstance(row, Item)], [row for row in rows if isinstance(row, Skipped)]


@pytest.mark.parametrize("form", FORMS)
def test_the_form_is_told_and_every_item_is_a_tender(form: tuple[str, str, bytes]) -> None:
    found, skipped = audited(file(SMALL, *form))
    assert skipped == []
    assert [(each.id, each.counter.amount, each.counter.micr_by, each.taken_as) for each in found] == [
        ("0001", 4510, "reader", "kept"),
        ("0002", 123456, "corrected", "kept"),
        ("1", 999, None, None),
        ("0004", 1, None, "kept"),
    ]
    assert {each.counter.on for each in found} == {date(2026, 11, 25)}
    assert found[0].face.micr.text == "⑆071098973⑆ 45601122⑈1043"
    assert found[1].face.micr.text == "⑈001044⑈ ⑆071098973⑆ 00*5601122⑈"
    assert found[2].face.micr.text == "⑈77⑈ ⑆071098973⑆ 45601122⑈1043"
    assert found[3].face.micr.text == "6⑆071098973⑆ 123⑉456⑉789⑈55"
    assert found[0].documents is None
    assert found[0].face.signature.value == "absent"


def test_the_day_given_goes_before_the_business_date() -> None:
    found, _ = audited(file(SMALL), date(2026, 11, 23))
    assert {each.counter.on for each in found} == {date(2026, 11, 23)}


def dated(business: str, created: str = "20261125", letter: str = "20261125") -> bytes:
    """A letter of one check and one return, its bundle of the day *business*."""
    records = whole([[Check(4510), Check(999, reason="A")]])
    for number, place, digits in ((0, 23, created), (1, 22, letter), (2, 22, business)):
        text, data = records[number]
        records[number] = (text[:place] + digits + text[place + 8 :], data)
    return file(records)


@pytest.mark.parametrize("business", ["22261125", "00011125", "20261325", "2026112X"])
def test_an_odd_day_is_a_flaw_and_unknown(business: str) -> None:
    found, skipped = audited(dated(business))
    assert [(each.counter.amount, each.counter.on) for each in found] == [(4510, None), (999, None)]
    (row,) = skipped
    assert row.reason.endswith(f"Bundle Business Date): Expected a day as YYYYMMDD, read '{business}'.")


@pytest.mark.parametrize("business", ["        ", "00000000"])
def test_a_bundle_without_a_day_is_of_the_day_of_its_letter(business: str) -> None:
    assert {each.counter.on for each in audited(dated(business, letter="20261124"))[0]} == {date(2026, 11, 24)}


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (dated("22261125"), "up to 5 days behind the making of the file, 2026-11-25, read none."),
        (dated("20261201"), "up to 5 days behind the making of the file, 2026-11-25, read 2026-12-01."),
        (dated("20261126", created="29991125"), None),
        (dated("20261125"), None),
    ],
)
def test_no_account_is_listed_under_a_day_that_cannot_be(content: bytes, told: str | None) -> None:
    entry = list(returns(io.BytesIO(content)))[-1]
    if told is None:
        assert isinstance(entry, Returned)
    else:
        assert isinstance(entry, Skipped)
        assert entry.reason == f"Byte 340, record 5 (type 31): Expected a business date {told}"


def test_what_makes_no_tender_is_a_row_skipped(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("checkface.audit.letters.wire", lambda item, on: {"id": item.sequence, "cash": 1})
    found, skipped = audited(dated("20261125"))
    assert found == []
    assert [(row.line, "'cash'" in row.reason) for row in skipped] == [(4, True), (5, True)]


def test_the_amount_is_not_put_into_the_line() -> None:
    """A bank encodes it after the check was taken; on paper at a counter it would be a reason to refer."""
    (line,) = (micr_line(i) for i in items(read(io.BytesIO(file(whole([[Check(4510)]]))))) if isinstance(i, LetterItem))
    assert isinstance(line, micr.MicrLine)
    assert line.amount_cents is None


@pytest.mark.parametrize(
    ("mark", "expected"),
    [("0", "reader"), ("1", "corrected"), ("2", "corrected"), ("3", "corrected"), ("4", None), (" ", None)],
)
def test_how_the_line_was_captured(mark: str, expected: str | None) -> None:
    (found,), _ = audited(file(whole([[Check(1, correction=mark)]])))
    assert found.counter.micr_by == expected


def test_a_repair_by_any_bank_counts() -> None:
    records = whole([[Check(1, correction="0", endorsers=["071098973", "031097765"])]])
    text, data = records[5]
    assert text[:2] == "28"
    records[5] = (text[:38] + "3" + text[39:], data)
    (found,), _ = audited(file(records))
    assert found.counter.micr_by == "corrected"


def test_fields_that_make_no_line_are_one_that_could_not_be_made_out() -> None:
    found, skipped = audited(file(whole([[Check(1, on_us="4560A122/"), Check(2, on_us="", routing=" " * 9)]])))
    assert [each.face.micr.state for each in found] == [State.ILLEGIBLE, State.BLANK]
    assert [(row.line, "4560" in row.reason) for row in skipped] == [(4, False), (5, False), (5, False)]


def test_an_amount_that_cannot_be_read_is_none() -> None:
    records = whole([[Check(4510)]])
    text, data = records[3]
    records[3] = (text[:47] + "00000O4510" + text[57:], data)
    (found,), skipped = audited(file(records))
    assert found.counter.amount is None
    assert (
        skipped[0].reason == "Byte 303, record 4 (type 25, Item Amount): Expected 10 digits, read 9 digits, 1 letter."
    )


def test_every_flaw_is_a_row_skipped_and_nothing_before_it_is_lost() -> None:
    content = file(SMALL)
    found, skipped = audited(content[:2000])
    assert [each.id for each in found] == ["0001", "0002"]
    assert [row.line for row in skipped] == [14, 13, 13, 13]
    assert skipped[0].reason.startswith(
        "Byte 1,986, record 14 (type 31): Expected a record of 80 bytes, read 14 before"
    )


def test_there_are_no_columns_to_rename() -> None:
    with pytest.raises(InputError, match="an image cash letter, which has none"):
        list(tenders(io.BytesIO(file(SMALL)), ignored=["x"]))


def test_a_letter_without_an_item_is_read_and_judges_nothing() -> None:
    found, skipped = audited(file(whole([])))
    assert (found, skipped) == ([], [])


def test_returns_for_the_house_list() -> None:
    day = date(2026, 11, 25)
    assert list(returns(io.BytesIO(file(SMALL)))) == [
        Returned(14, "071098973", "45601122", day, "77", 999, "A not sufficient funds")
    ]


@pytest.mark.parametrize(
    ("check", "told"),
    [
        (Check(1, reason="Y"), "Expected a return reason that speaks of the account, read 'Y', presented twice."),
        (Check(1, reason="V"), "Expected a return reason that speaks of the account, read 'V'."),
        (Check(1, reason="A", on_us="4560*122/"), "Expected a routing number that passes its sum and an account without"),
        (Check(1, reason="A", routing="071098974"), "Expected a routing number that passes its sum and an account without"),
        (Check(1, reason="A", on_us="1043 45601122"), "Expected a routing number that passes its sum and an account without"),
        (Check(1, reason="A", epc="5"), "Expected a routing number that passes its sum and an account without"),
    ],
)  # fmt: skip
def test_who_is_not_beyond_doubt_is_not_listed(check: Check, told: str) -> None:
    (row,) = returns(io.BytesIO(file(whole([[check]]))))
    assert isinstance(row, Skipped)
    assert row.reason.startswith(f"Byte 256, record 4 (type 31): {told}")
    assert "4560" not in row.reason


def test_no_repr_shows_an_account() -> None:
    (row,) = returns(io.BytesIO(file(SMALL)))
    assert "45601122" not in repr(row)
