"""What one part made of one reading: its fields under the very characters, its faults, and what it left open.

The payload of a card is never shown, not even masked: it holds a birth date and an address. Its length stands for it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any, NamedTuple

from checkface import amounts, dates, digits, identity, masking, micr, routing
from checkface.cells import shown
from checkface.report.drawing import Paint, no_paint
from checkface.report.excerpt import Mark, excerpt
from checkface.report.facts import money
from checkface.span import Fault, Span

Value = (
    micr.MicrLine | routing.RoutingNumber | routing.Fraction | amounts.WordsAmount | amounts.FiguresAmount
    | dates.CheckDate | identity.Card | Fault
)  # fmt: skip


class Part(NamedTuple):
    """One reading, read. ``fields`` are JSON-ready; ``spans`` say where a field stands in ``text``, which is masked."""

    name: str
    text: str
    fields: Mapping[str, Any]
    spans: Mapping[str, Span]
    faults: tuple[Fault, ...]
    notes: tuple[str, ...]

    def wire(self) -> dict[str, Any]:
        """The JSON form."""
        faults = [
            {"kind": fault.kind, "start": fault.span.start, "end": fault.span.end, "message": fault.message}
            for fault in self.faults
        ]
        spans = {field: [span.start, span.end] for field, span in self.spans.items()}
        return {
            "reading": self.name, "text": self.text, "fields": dict(self.fields), "spans": spans, "faults": faults,
            "notes": list(self.notes),
        }  # fmt: skip


def part(name: str, text: str, value: Value, *, reveal: bool = False, on: date | None = None) -> Part:
    """What to report of *value*, which the part for *name* made of *text*; of a card also as it stands *on* a day."""
    hidden = _hidden(name, text, value, reveal)
    match value:
        case Fault():
            fault = replace(value, span=Span(0, len(hidden))) if name == "barcode" else value
            if name in _LIMITS and hidden != text:  # what is masked in the reading is quoted by no fault
                masked = digits.own(*digits.hidden(text, _LIMITS[name]))
                read, after = (digits.hide_parted(said, masked) for said in (fault.read, fault.after))
                fault = replace(fault, read=read, after=after)
            return Part(name, hidden, {}, {}, (fault,), ())
        case identity.Card():
            return _card(hidden, value, reveal, on)
        case _ if name in _LIMITS and hidden != text:
            return Part(name, hidden, {}, {}, (), ("more digits than this can have; masked, and no value is shown",))
        case micr.MicrLine():
            return _micr(hidden, value, reveal)
        case routing.RoutingNumber():
            return Part(name, hidden, _number(value), {}, (), ())
        case routing.Fraction():
            fields = {
                "prefix": value.prefix, "institution": value.institution, "symbol": value.symbol,
                "branch": value.branch,
                "routing": value.number, "states": list(value.states),
                "district": value.district,
            }  # fmt: skip
            return Part(name, hidden, fields, value.spans, (), ())
        case dates.CheckDate():
            return _date(hidden, value)
        case _:
            return _amount(name, hidden, value)


#: By which limit of :data:`checkface.digits.SHOWN` the text of a part is shown.
_LIMITS = {"routing": "label", "fraction": "fraction", "figures": "figures", "date": "date", "words": "prose"}


def _hidden(name: str, text: str, value: Value, reveal: bool) -> str:
    if name == "barcode":
        return f"{len(text):,} character{'s' * (len(text) != 1)}"
    if reveal:
        return text
    if name == "micr":
        return masking.line(text, value if isinstance(value, micr.MicrLine | Fault) else None)
    return digits.hide(text, _LIMITS[name])


def _micr(hidden: str, line: micr.MicrLine, reveal: bool) -> Part:
    shown = {name: getattr(line, name) for name in ("auxiliary", "epc", "account", "serial", "transaction_code")}
    if not reveal:
        shown = {name: masking.field(name, value) for name, value in shown.items()}
    fields = {
        "notation": line.notation, "country": line.country, "routing": line.routing, "checksum": line.checksum,
        **shown, "amount_cents": line.amount_cents if reveal else masking.amount(line.amount_cents),
        "unread": line.unread,
        "routing_repaired": line.routing_repaired, "routing_old_form": line.routing_old_form,
    }  # fmt: skip
    notes = (*(f"{entry.field} is open: {entry.reason}" for entry in line.ambiguities), *line.notes)
    return Part("micr", hidden, fields, line.spans, line.faults, notes)


def _number(value: routing.RoutingNumber) -> dict[str, Any]:
    return {
        "number": value.number, "checksum": value.checksum, "series": value.series, "district": value.district,
        "on_paper": value.on_paper,
        "government": value.government.entity if value.government else None,
    }  # fmt: skip


def _date(hidden: str, value: dates.CheckDate) -> Part:
    fields = {
        "date": _iso(value.date), "candidates": [_iso(day) for day in value.candidates], "form": value.form,
        "order_unclear": value.order_unclear, "two_digit_year": value.two_digit_year,
        "january_slip": _iso(value.january_slip), "weekday_contradicts": value.weekday_contradicts,
    }  # fmt: skip
    notes = tuple(f'"{repair.span.of(hidden)}" was taken for {repair.word}' for repair in value.repairs)
    return Part("date", hidden, fields, {"date": value.span}, (), notes)


_HOLDERS = {True: "adult", False: "minor", None: "unknown"}


def _card(hidden: str, card: identity.Card, reveal: bool, on: date | None) -> Part:
    expires, number = card.expires, card.reveal_number()
    fields = {
        "medium": card.medium, "kind": card.kind, "issuer": card.issuer, "issuer_code": card.issuer_code,
        "country": card.country, "version": card.version,
        "number": number if reveal else masking.document_number(number),
        **card.name._asdict(),
        "address_state": card.address.state, "limited_duration": card.limited_duration, "issued": _iso(card.issued),
        "expiry": expires.kind,
        "expires": sorted({day.isoformat() for day in (expires.earliest, expires.latest) if day}),
        "validity": on and identity.currency_on(expires, on), "holder": on and _HOLDERS[card.is_adult(on)],
        "repairs": [each._asdict() for each in card.repairs], "checks": [each._asdict() for each in card.checks],
        "forbidden": [each._asdict() for each in card.forbidden],
    }  # fmt: skip
    return Part("barcode", hidden, fields, {}, (), ())


def _amount(name: str, hidden: str, value: amounts.WordsAmount | amounts.FiguresAmount) -> Part:
    fields = {
        "cents": value.cents, "verdict": value.verdict,
        "candidates": [{"cents": each.cents, "reason": each.reason} for each in value.candidates],
    }  # fmt: skip
    notes = (
        *(f'"{repair.read}" was taken for {repair.taken}' for repair in value.repairs),
        *value.reasons,
        *(value.notes if isinstance(value, amounts.WordsAmount) else ()),
    )
    return Part(name, hidden, fields, value.spans, (), notes)


#: Widest column of names; what has no value is left out of the drawn form.
MARGIN = 20
_NOTHING: tuple[Any, ...] = (None, [], "")


def _iso(day: date | None) -> str | None:
    return None if day is None else day.isoformat()


def part_text(told: Part, *, columns: int = 100, paint: Paint = no_paint) -> str:
    """The drawn form: the reading with its fields and faults underlined, then values and notes. No line end follows."""
    marks = [Mark(span.start, span.end, field.replace("_", " "), primary=False) for field, span in told.spans.items()]
    marks += [Mark(fault.span.start, fault.span.end, fault.message) for fault in told.faults]
    given = {
        field.replace("_", " "): _said(field, value) for field, value in told.fields.items() if value not in _NOTHING
    }
    notes = dict.fromkeys(map(shown, told.notes))
    rows = excerpt(told.name, told.text, marks or [Mark(0, 0)], columns - MARGIN)
    margin = max(map(len, (*given, *(row.name for row in rows), *("note" for _ in notes)))) + 1
    page = [
        f"{row.name:{margin}}| {row.text if row.role == 'reading' else paint(row.text, row.role)}"
        for row in (rows if marks else rows[:1])
    ]
    page += [f"{field:{margin}}  {said}" for field, said in given.items()]
    page += [f"{'note':{margin}}  {note}" for note in notes]
    return "\n".join(line.rstrip() for line in page)


def _said(field: str, value: Any) -> str:
    match value:
        case bool():
            return "yes" if value else "no"
        case int() if field.endswith("cents"):
            return money(value)
        case [{"cents": _, "reason": _}, *_]:
            return "; ".join(f"{money(each['cents'])} ({shown(each['reason'])})" for each in value)
        case [{"kind": _}, *_]:
            return "; ".join(f"{each['kind']} ({shown(each.get('words') or each['certainty'])})" for each in value)
        case list():
            return ", ".join(map(str, value))
    return shown(str(value))
