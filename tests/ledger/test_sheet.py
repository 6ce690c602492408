"""The drawer sheet: the same facts as text, as CSV and as HTML, safe to print and to open."""

from __future__ import annotations

import csv
import io
from datetime import timedelta
from html.parser import HTMLParser

import pytest
from ledger_world import ACCOUNT, MOMENT, assessed

from checkface.findings import Disposition
from checkface.ledger import Ledger, Override, sheet, till, wording
from checkface.ledger.till import Line, Report, Total

pytestmark = pytest.mark.parametrize("place", ["sqlite"], indirect=True)
NASTY = "=1+1<script>alert('x')</script>&\"B\""


def day(ledger: Ledger, counted: Total | list[Line]) -> Report:
    """A day of five checks, one of them taken against what was told, counted as given and closed."""
    which = till.open(ledger, store=NASTY, lane="3", by="114", at=MOMENT).id

    def take(minutes: int, serial: str, cents: int, told: Disposition, done: str, why: Override | None = None) -> None:
        moment = MOMENT + timedelta(minutes=minutes)
        till.take(ledger, which, assessed(serial, cents, told), done, by="114", at=moment, override=why)

    take(1, "1043", 4510, Disposition.KEEP, "kept")
    take(2, "1044", 2000, Disposition.CONVERT, "converted")
    take(3, "1045", 900, Disposition.DECLINE, "returned")
    take(4, "1046", 120000, Disposition.REFER, "kept", Override(NASTY, "MG"))
    take(5, "1047", 3999, Disposition.KEEP, "kept")
    till.count(ledger, which, counted)
    return till.close(ledger, which, by="115", at=MOMENT + timedelta(hours=8))


SHORT = """\
DRAWER SHEET: store shop, lane 3, 2026-11-24
Opened 2026-11-24 09:30 by 114
Closed 2026-11-24 17:30 by 115
Entries 1 to 8 are as they were recorded; the last seal is SEAL.

Kept: belong in the drawer
          1043   ...7890          $45.10  114          09:31
          1046   ...7890       $1,200.00  114          09:34
          1047   ...7890          $39.99  114          09:35

Converted: voided and handed back
          1044   ...7890          $20.00  114          09:32

Handed back untaken
          1045   ...7890           $9.00  114          09:33

Done other than told
  Check 1046 $1,200.00: kept, told to refer: reason (MG)

Expected    3 checks, $1,285.09
Counted     2 checks, $1,239.99
Difference  -1 check, -$45.10

The drawer is short by 1 check and $45.10.
One explanation fits to the cent, and no other as short does.
  1. Check 1043 ($45.10, account ending 7890) was kept and is not in the drawer: handed back, or lost.

Counted by ______________________   Checked by ______________________
"""


def test_the_sheet_as_text(ledger: Ledger) -> None:
    report = day(ledger, Total(2, 123999))
    said = sheet.text(report).replace(report.agreement.seal, "SEAL")
    assert said.replace(NASTY, "shop", 1).replace(NASTY, "reason") == SHORT


def test_every_sheet_says_what_cannot_be_known_again_and_what_was_altered(ledger: Ledger) -> None:
    which = till.open(ledger, store="7", lane="3", by="114", at=MOMENT).id
    till.take(ledger, which, assessed(""), "kept", by="114", at=MOMENT)
    till.take(ledger, which, assessed("1044"), "kept", by="114", at=MOMENT)
    ledger.database.write(lambda c: c.exec_driver_sql("UPDATE item SET employee = '115' WHERE serial = '1044'"))
    report = till.report(ledger, which)
    altered = "ALTERED from entry 3 on (11/24/2026 9:30 am): the check recorded then was changed. Call the manager."
    for render in (sheet.text, sheet.table, sheet.html):
        said = render(report)
        assert said.count(wording.NOT_KNOWN_AGAIN) == 1
        assert said.count(altered) == 1


def test_the_sheet_as_csv_runs_nothing_in_a_spreadsheet(ledger: Ledger) -> None:
    rows = list(csv.DictReader(io.StringIO(sheet.table(day(ledger, Total(2, 123999))), newline="")))
    checks = [row for row in rows if row["record"] == "check"]
    assert [(row["serial"], row["amount"], row["done"]) for row in checks] == [
        ("1043", "45.10", "kept"),
        ("1044", "20.00", "converted"),
        ("1045", "9.00", "returned"),
        ("1046", "1200.00", "kept"),
        ("1047", "39.99", "kept"),
    ]
    assert checks[3]["override"] == f"'{NASTY} (MG)"
    sums = {row["record"]: (row["amount"], row["note"]) for row in rows if row["amount"] and row["record"] != "check"}
    assert sums == {
        "expected": ("1285.09", "3 checks"),
        "counted": ("1239.99", "2 checks"),
        "difference": ("-45.10", "-1 check"),
    }
    assert [row["note"][:10] for row in rows if row["record"] == "explanation 1"] == ["Check 1043"]
    assert not any(cell.startswith(("=", "+", "@")) for row in rows for cell in row.values())


class Seen(HTMLParser):
    """The tags and the texts of a page."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.texts: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        assert not {name for name, _ in attrs} & {"src", "href", "onload", "onclick"}

    def handle_data(self, data: str) -> None:
        self.texts.append(data.strip())


def test_the_sheet_as_html_escapes_everything_and_needs_nothing_else(ledger: Ledger) -> None:
    report = day(ledger, Total(2, 123999))
    page = sheet.html(report)
    seen = Seen()
    seen.feed(page)
    assert "script" not in seen.tags
    assert any(NASTY in text for text in seen.texts)
    assert "$1,200.00" in seen.texts
    for word in ("http:", "https:", "url(", "@import", "<link", "<img"):
        assert word not in page
    for said in (wording.outcome(report), wording.certainty(report), *wording.explanations(report)[0]):
        assert said in seen.texts
    for rendering in (page, sheet.text(report), sheet.table(report)):
        assert ACCOUNT not in rendering
        assert "7890" in rendering


@pytest.mark.parametrize(
    ("counted", "outcome", "certainty", "explained"),
    [
        (Total(3, 128509), "The drawer agrees with what was kept.", "", 0),
        (
            Total(4, 130509),
            "The drawer is over by 1 check and $20.00.",
            "One explanation fits to the cent, and no other as short does.",
            1,
        ),
        (
            Total(3, 129409),
            "The drawer is over by $9.00.",
            "One explanation fits to the cent, and no other as short does.",
            1,
        ),
        (
            Total(3, 128509 - 45),
            "The drawer is short by $0.45.",
            ("No explanation fits: count again. The difference is a multiple of nine, as exchanged digits leave it."),
            0,
        ),
        (Total(3, 128508), "The drawer is short by $0.01.", "No explanation fits: count again.", 0),
        (Total(4, 128409), "The drawer is over by 1 check and short by $1.00.", "No explanation fits: count again.", 0),
        (Total(4, 128509), "The drawer is over by 1 check.", "No explanation fits: count again.", 0),
        (
            [Line("1043", 4510), Line("1046", 120000)],
            "The drawer is short by 1 check and $39.99.",
            "Found by holding the list of counted checks against what was recorded.",
            1,
        ),
        (
            [Line("1043", 4510), Line("1046", 120000), Line("1047", 3999)],
            "The drawer agrees with what was kept.",
            "",
            0,
        ),
    ],
)
def test_what_is_said_of_a_drawer(
    ledger: Ledger, counted: Total | list[Line], outcome: str, certainty: str, explained: int
) -> None:
    report = day(ledger, counted)
    assert wording.outcome(report) == outcome
    assert wording.certainty(report) == certainty
    assert len(wording.explanations(report)) == explained


def test_a_list_can_agree_in_sum_and_still_show_slips(ledger: Ledger) -> None:
    report = day(ledger, [Line("1043", 4510), Line("1046", 120000), Line("1099", 3999)])
    assert report.difference == (0, 0)
    assert wording.explanations(report) == (
        ("Check 1047 ($39.99, account ending 7890) was counted under another serial number.",),
    )


def test_before_the_count_the_sheet_says_so(ledger: Ledger) -> None:
    which = till.open(ledger, store="", lane="3", by="114", at=MOMENT).id
    report = till.report(ledger, which)
    assert "The drawer has not been counted." in sheet.text(report)
    assert "Difference" not in sheet.html(report)


@pytest.mark.parametrize(
    ("alike", "certainty"),
    [
        (2, "2 explanations fit to the cent: look for the checks named before choosing one."),
        (5, "So many explanations fit that none is proved, 3 of them here: count by a list of the checks."),
    ],
)
def test_many_explanations_are_no_proof(ledger: Ledger, alike: int, certainty: str) -> None:
    which = till.open(ledger, store="7", lane="3", by="114", at=MOMENT).id
    for serial in range(1000, 1000 + alike):
        till.take(ledger, which, assessed(str(serial), 4510), "kept", by="114", at=MOMENT)
    till.count(ledger, which, Total(alike - 1, 4510 * (alike - 1)))
    report = till.report(ledger, which)
    assert wording.certainty(report) == certainty
    assert len(wording.explanations(report)) == min(alike, 3)
