"""The drawer sheet of one till: as text for a terminal, as CSV for a spreadsheet, as HTML for paper.

The HTML is one page that needs nothing else, with every text escaped; cells of the CSV that a spreadsheet would run as
a formula are quoted. No account shows more than its last four.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable
from datetime import datetime
from html import escape
from typing import Final

from checkface.amounts import money
from checkface.cells import inert, shown
from checkface.ledger.entries import Done, Item
from checkface.ledger.report import Report
from checkface.ledger.wording import NOT_KNOWN_AGAIN, amount, certainty, explanations, outcome, seals

_HEADINGS: Final = ("serial", "account", "amount", "done", "told", "by", "at", "override")


def text(report: Report) -> str:
    """The sheet in lines of at most 78 characters where the texts allow."""
    lines = [f"DRAWER SHEET: {_title(report)}", *_facts(report), ""]
    for done, heading in _SECTIONS:
        if items := report.taken_as(done):
            lines += [heading, *(f"  {_line(item)}" for item in items), ""]
    if report.overrides:
        lines += ["Done other than told", *(f"  {_override(item)}" for item in report.overrides), ""]
    if report.corrections:
        lines += ["Corrected", *(f"  {line}" for line in _corrections(report)), ""]
    if unknown := _unknown(report):
        lines += [NOT_KNOWN_AGAIN, *(f"  {_line(item)}" for item in unknown), ""]
    lines += [f"{label:<12}{value}" for label, value in _sums(report)]
    lines += ["", outcome(report), *filter(None, [certainty(report)])]
    for number, sentences in enumerate(explanations(report), 1):
        lines += [f"  {number}. {sentences[0]}", *(f"     {more}" for more in sentences[1:])]
    lines = list(map(shown, lines))
    return "\n".join([*lines, "", "Counted by ______________________   Checked by ______________________", ""])


def table(report: Report) -> str:
    """The sheet as CSV: one line a check, then the sums and the explanations under ``note``."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(("record", *_HEADINGS, "note"))
    for item in report.items:
        writer.writerow(["check", *map(_safe, _cells(item)), "" if item.known_again else NOT_KNOWN_AGAIN])
    blank = [""] * (len(_HEADINGS) - 1)
    for label, sums in (
        ("expected", report.expected),
        ("counted", report.till.counted),
        ("difference", report.difference),
    ):
        if sums is not None:
            writer.writerow([label, "", "", _plain(sums[1]), *blank[2:], amount(*sums).partition(",")[0]])
    for note in (outcome(report), certainty(report)):
        writer.writerow(["outcome", "", *blank, _safe(note)])
    for said in seals(report.agreement):
        writer.writerow(["seals", "", *blank, _safe(said)])
    for number, sentences in enumerate(explanations(report), 1):
        for said in sentences:
            writer.writerow([f"explanation {number}", "", *blank, _safe(said)])
    return out.getvalue()


def html(report: Report) -> str:
    """The sheet as one HTML page, ready to print."""
    kept = report.taken_as("kept")
    parts = [
        f"<h1>Drawer sheet</h1><p class=head>{escape(_title(report))}</p>",
        "".join(f"<p>{escape(fact)}</p>" for fact in _facts(report)),
        "<h2>Checks that belong in the drawer</h2>",
        _rows(("", "serial", "account", "amount", "by", "at"), [("☐", *_short(item)) for item in kept]),
        "<table class=sums>" + "".join(f"<tr><th>{escape(k)}<td>{escape(v)}" for k, v in _sums(report)) + "</table>",
        f"<p class=outcome>{escape(outcome(report))}</p><p>{escape(certainty(report))}</p>",
    ]
    if found := explanations(report):
        parts.append("<ol>" + "".join(f"<li>{'<br>'.join(map(escape, said))}" for said in found) + "</ol>")
    for done, heading in _SECTIONS[1:]:
        if items := report.taken_as(done):
            parts += [
                f"<h2>{escape(heading)}</h2>",
                _rows(("serial", "account", "amount", "by", "at"), map(_short, items)),
            ]
    if report.overrides:
        parts += ["<h2>Done other than told</h2>", _list(map(_override, report.overrides))]
    if report.corrections:
        parts += ["<h2>Corrected</h2>", _list(_corrections(report))]
    if unknown := _unknown(report):
        parts += [
            f"<h2>{escape(NOT_KNOWN_AGAIN)}</h2>",
            _rows(("serial", "account", "amount", "by", "at"), map(_short, unknown)),
        ]
    parts.append("<p class=sign><span>Counted by</span><span>Checked by</span></p>")
    title = escape(f"Drawer sheet, {_title(report)}")
    body = "\n".join(parts)
    head = f'<html lang="en"><meta charset="utf-8"><title>{title}</title>'
    return f"<!doctype html>\n{head}\n{_STYLE}\n<body>\n{body}\n</body></html>\n"


_SECTIONS: Final[tuple[tuple[Done, str], ...]] = (
    ("kept", "Kept: belong in the drawer"),
    ("converted", "Converted: voided and handed back"),
    ("returned", "Handed back untaken"),
)
_STYLE = """<style>
@page { margin: 15mm }
body { font: 11pt/1.4 system-ui, sans-serif; color: #000; background: #fff; max-width: 180mm; margin: 1em auto }
h1 { font-size: 17pt; margin: 0 } h2 { font-size: 12pt; margin: 1.4em 0 .3em } p { margin: .2em 0 }
.head { font-weight: 600 } .outcome { font-weight: 600; margin-top: 1em }
table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums } tr { break-inside: avoid }
th, td { text-align: left; padding: .15em .6em .15em 0; border-bottom: .4pt solid #999; overflow-wrap: anywhere }
.amount { text-align: right; padding-right: 1.6em } .sums { width: auto; margin-top: 1em; border-top: 1.2pt solid #000 }
.sign { display: flex; gap: 12mm; margin-top: 16mm }
.sign span { flex: 1; border-top: .6pt solid #000; padding-top: 1mm }
</style>"""


def _title(report: Report) -> str:
    till = report.till
    return ", ".join(filter(None, (till.store and f"store {till.store}", f"lane {till.lane}", till.day.isoformat())))


def _facts(report: Report) -> list[str]:
    till = report.till
    facts = [f"Opened {_clock(till.opened_at)} by {till.opened_by}"]
    if till.closed_at is not None:
        facts.append(f"Closed {_clock(till.closed_at)} by {till.closed_by}")
    return [*facts, *seals(report.agreement)]


def _unknown(report: Report) -> list[Item]:
    """Checks that were taken and would not be known if they came again."""
    return [item for item in report.items if item.taken_as != "returned" and not item.known_again]


def _sums(report: Report) -> list[tuple[str, str]]:
    sums = [("Expected", amount(*report.expected))]
    if report.till.counted is not None and report.difference is not None:
        sums += [("Counted", amount(*report.till.counted)), ("Difference", amount(*report.difference))]
    return sums


def _clock(moment: datetime) -> str:
    return moment.strftime("%Y-%m-%d %H:%M")


def _money(item: Item) -> str:
    return "" if item.amount_cents is None else money(item.amount_cents)


def _account(item: Item) -> str:
    return f"...{item.account_last4}" if item.account_last4 else ""


def _short(item: Item) -> tuple[str, ...]:
    return item.serial, _account(item), _money(item), item.employee, _clock(item.at)


def _line(item: Item) -> str:
    return f"{item.serial or '-':>12}  {_account(item):>8}  {_money(item):>14}  {item.employee:<12} {item.at:%H:%M}"


def _override(item: Item) -> str:
    why = f"{item.override.reason} ({item.override.by})" if item.override else ""
    why = "; ".join(filter(None, (why, *(f"confirmed: {rule}" for rule in item.confirmed))))
    return f"Check {item.serial or '-'} {_money(item)}: {item.taken_as}, told to {item.disposition}: {why}".replace(
        "  ", " "
    )


def _corrections(report: Report) -> list[str]:
    serials = {item.id: item.serial or "-" for item in report.items}
    return [
        f"Check {serials[c.item]}: {c.was}, became {c.became}: {c.reason} ({c.employee}, {c.second})"
        for c in report.corrections
    ]


def _cells(item: Item) -> tuple[str, ...]:
    why = f"{item.override.reason} ({item.override.by})" if item.override else ""
    why = "; ".join(filter(None, (why, *(f"confirmed: {rule}" for rule in item.confirmed))))
    cents = "" if item.amount_cents is None else _plain(item.amount_cents)
    told = str(item.disposition)
    return item.serial, _account(item), cents, item.taken_as, told, item.employee, item.at.isoformat(), why


def _plain(cents: int) -> str:
    return f"{'-' if cents < 0 else ''}{abs(cents) // 100}.{abs(cents) % 100:02d}"


def _safe(cell: str) -> str:
    return inert(shown(cell))


def _rows(headings: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    names = list(headings)
    head = "".join(f"<th{_class(name)}>{escape(name)}" for name in names)
    body = "".join(
        "<tr>" + "".join(f"<td{_class(name)}>{escape(cell)}" for name, cell in zip(names, row, strict=True))
        for row in rows
    )
    return f"<table><tr>{head}{body}</table>"


def _class(name: str) -> str:
    return " class=amount" if name == "amount" else ""


def _list(lines: Iterable[str]) -> str:
    return "<ul>" + "".join(f"<li>{escape(line)}" for line in lines) + "</ul>"
