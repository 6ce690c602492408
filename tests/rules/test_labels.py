"""Where each finding points: the very characters it speaks of, and the other reading they are held against."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from clean_tender import CLEAN, patched
from test_fixtures import FIXTURES, run
from test_lane_rules import found
from test_records import LICENCE, Past

import checkface as cf
from checkface.findings import Finding
from checkface.rules.history import AccountPast, Seen

#: Where the finding of each rule points on its own fixture: the reading, «the characters» unless it is the whole
#: reading, and the words under them; ``~`` before what it is held against.
LABELS = {
    "date-in-future": ("face.date «12/01/2026»", "~ counter.on the day of tender"),
    "date-stale": ("face.date «05/23/2026»", "~ counter.on the day of tender"),
    "date-overdue": ("face.date «08/25/2026»", "~ counter.on the day of tender"),
    "date-last-january": ("face.date «01/05/2026»", "~ counter.on the day of tender"),
    "treasury-past-year": ("face.date «11/23/2025»", "~ counter.on the day of tender"),
    "warrant-past-term": ("face.date «05/23/2026»", "~ counter.on the day of tender"),
    "date-past-printed-limit": (
        "face.legends «90 DAYS» the printed term",
        "~ face.date «08/25/2026»",
        "~ counter.on the day of tender",
    ),
    "amounts-disagree": ("face.figures «54.10» $54.10", "~ face.words «Forty-five and 10/100» $45.10 counts"),
    "words-unclear": ("face.words",),
    "words-repaired": ("face.words «Fourty» forty",),
    "words-blank": ("face.words",),
    "figures-blank": ("face.figures",),
    "figures-unclear": ("face.figures «4510»",),
    "reading-not-taken": ("counter.micr_by", "~ face.signature"),
    "network-down": ("counter.network",),
    "authorization-not-signed": ("counter.authorization_signed",),
    "conversion-not-accepted-here": ("counter.store",),
    "date-blank": ("face.date",),
    "date-unreadable": ("face.date «30»",),
    "date-without-year": ("face.date «5/15»",),
    "date-order-unclear": ("face.date «11/12/2026»",),
    "date-weekday-differs": ("face.date «Monday, November 24, 2026»",),
    "date-repaired": ("face.date «Novenber» November",),
    "fraction-differs": ("face.fraction «9987»", "~ face.micr «071098973» the line"),
    "fraction-outside-district": ("face.fraction «90»", "~ face.fraction «710» the district"),
    "fraction-malformed": ("face.fraction «»",),
    "id-missing": ("face.documents",),
    "id-kind-not-accepted": ("documents.0.kind",),
    "id-not-photo": ("documents.0.kind",),
    "id-expired": ("documents.0.expires",),
    "id-not-bearer": ("documents.0.is_bearer",),
    "id-barcode-unreadable": ("documents.0.barcode",),
    "id-state-unknown": ("documents.0.state",),
    "id-state-differs": ("documents.0.state",),
    "id-number-shape": ("documents.0.number",),
    "id-number-forbidden": ("documents.0.number",),
    "id-dates-inconsistent": ("documents.0.expires",),
    "id-under-age": ("documents.0.barcode",),
    "id-limited-duration": ("documents.0.barcode",),
    "drawer-differs-from-id": ("face.drawer «Ada Sample»", "~ documents.0.name"),
    "id-address-differs": ("face.drawer",),
    "treasury-check": ("face.legends «UNITED STATES TREASURY» the wording UNITED STATES TREASURY",),
    "postal-money-order": (
        "face.legends «UNITED STATES POSTAL MONEY ORDER» the wording UNITED STATES POSTAL MONEY ORDER",
    ),
    "money-order": ("face.legends «MONEY ORDER» the wording MONEY ORDER",),
    "cashiers-check": ("face.legends «CASHIER'S CHECK» the wording CASHIER'S CHECK",),
    "tellers-check": ("counter.declared_kind declared",),
    "certified-check": ("counter.declared_kind declared",),
    "travelers-check": ("face.legends «TRAVELERS CHEQUE» the wording TRAVELERS CHEQUE",),
    "government-check": ("counter.declared_kind declared",),
    "federal-bank-item": ("counter.declared_kind declared",),
    "credit-line-draft": ("counter.declared_kind declared",),
    "investment-draft": ("counter.declared_kind declared",),
    "remotely-created-check": ("counter.declared_kind declared",),
    "substitute-check": (
        "face.legends «This is a legal copy of your check» the wording This is a legal copy of your check",
        "~ face.legends «use it the same way you would use the original» the wording use it the same way you would use the original",
    ),
    "foreign-currency-check": ("counter.declared_kind declared",),
    "counter-check": ("counter.declared_kind declared",),
    "business-check": ("counter.declared_kind declared",),
    "payroll-check": ("face.legends «PAYROLL» the wording PAYROLL",),
    "savings-bond": ("counter.declared_kind declared",),
    "other-check": ("counter.declared_kind declared",),
    "gift-check": ("counter.declared_kind declared",),
    "kind-undetermined": ("counter.declared_kind",),
    "kind-contradicts-declared": ("face.legends «PAYROLL» the wording PAYROLL",),
    "kind-not-accepted": ("counter.declared_kind declared",),
    "postal-money-order-over-maximum": ("face.figures",),
    "postal-money-order-serial": ("face.serial «74051489623»",),
    "travelers-countersignature": ("face.countersignature",),
    "amount-undetermined": ("counter.amount",),
    "amount-zero": ("face.words «Zero dollars and 00/100»",),
    "amount-over-conversion-limit": ("counter.amount",),
    "amount-over-house-limit": ("counter.amount",),
    "amount-over-printed-limit": ("face.legends «$45.09» the printed limit", "~ counter.amount $45.10"),
    "amount-differs-from-keyed": ("counter.amount", "~ face.words $45.10"),
    "cash-back-over-house-limit": ("counter.amount",),
    "cash-back-over-casher-threshold": ("counter.amount",),
    "encoded-amount-differs": ("face.micr «0000005410»", "~ counter.amount $45.10"),
    "micr-not-read": ("face.micr",),
    "micr-malformed": ("face.micr «07109897»",),
    "micr-notation-undecided": ("face.micr «T071098973T 45601122O 1043U»",),
    "micr-unread-character": ("face.micr «4560?122»",),
    "micr-keyed": ("counter.micr_by",),
    "micr-foreign": ("face.micr «12345⑉678»",),
    "micr-layout-ambiguous": ("face.micr the account number", "~ face.micr the serial number"),
    "micr-field-too-long": ("face.micr «456011224560112245601122⑈ 1043»",),
    "micr-too-long-for-paper": ("face.micr",),
    "micr-auxiliary-on-us": ("face.micr «001043»",),
    "micr-qualified-return": ("face.micr «2»",),
    "micr-substitute-check": ("face.micr «4»",),
    "micr-remotely-created": ("face.micr «6»",),
    "micr-amount-encoded": ("face.micr «0000004510»",),
    "micr-no-account": ("face.micr",),
    "micr-no-serial": ("face.micr",),
    "micr-zero-account": ("face.micr «00000000»",),
    "micr-account-short": ("face.micr «456»",),
    "reading-uncertain": ("face.figures «$45.10»",),
    "signature-missing": ("face.signature",),
    "payee-blank": ("face.payee",),
    "payee-not-house": ("face.payee «Ben Example»",),
    "third-party-check": ("face.payee «Ben Example»",),
    "several-payees": ("face.payee «Ada Sample and Ben Example»",),
    "serial-differs": ("face.serial «1048» printed", "~ face.micr «1043» on the line"),
    "serial-not-printed": ("face.serial",),
    "drawer-not-printed": ("face.drawer",),
    "drawer-not-a-person": ("face.drawer «Trustee»",),
    "drawer-unclear": ("face.drawer «Dragon»",),
    "drawee-not-a-bank": ("face.drawee «Insurance»",),
    "drawee-unclear": ("face.drawee «Specimen Financial\nSpringfield IL»",),
    "pillar-not-seen": ("face.drawer",),
    "payee-near-house": ("face.payee «Quillfeather Foods»",),
    "payee-house-unknown": ("face.payee «Quillfeather Grocery»",),
    "payee-shared": ("face.payee «Ben Example»",),
    "wording-not-understood": ("face.legends «GOOD ONLY AT THE FALL FAIR»",),
    "legend-void": ("face.legends «VOID»",),
    "already-converted": ("face.legends «PROCESSED ELECTRONICALLY»",),
    "already-endorsed": ("face.endorsements «For deposit only»",),
    "altered": ("face.alterations",),
    "legend-illegible": ("face.legends",),
    "conditional-wording": ("face.legends «Paid in full»",),
    "date-before-printed": ("face.legends «11/25/2026» the day it says", "~ counter.on the day of tender"),
    "already-returned": ("face.legends «RETURN REASON»", "~ face.legends «NSF»"),
    "legend-not-convertible": ("face.legends «NOT FOR ELECTRONIC CONVERSION»",),
    "second-signature-asked": ("face.legends «TWO SIGNATURES REQUIRED»",),
    "routing-checksum": ("face.micr «4»",),
    "routing-all-zero": ("face.micr «000000000»",),
    "routing-old-form": ("face.micr «0710⑉9897»",),
    "routing-unassigned-prefix": ("face.micr «45»",),
    "routing-electronic-only": ("face.micr «61»",),
    "routing-government": ("face.micr «000000518»",),
    "routing-federal-bank": ("face.micr «011000015»",),
    "routing-not-in-directory": ("face.micr «011394776»",),
}


def pointed(tender: dict[str, Any], finding: Finding) -> tuple[str, ...]:
    face = cf.parse(tender).face
    shown = []
    for label in finding.labels:
        text = getattr(getattr(face, label.reading.removeprefix("face."), None), "text", "")
        under = f" «{text[label.start : label.end]}»" if (label.start, label.end) != (0, 0) else ""
        shown.append(f"{'' if label.primary else '~ '}{label.reading}{under} {label.words}".strip())
    return tuple(shown)


@pytest.mark.parametrize("rule", FIXTURES)
def test_a_finding_points_at_what_it_speaks_of(rule: str) -> None:
    tender = patched(FIXTURES[rule]["found"])
    (finding,) = [finding for finding in run(FIXTURES[rule], "found").findings if finding.rule == rule]
    assert pointed(tender, finding) == LABELS.get(rule)


@pytest.mark.parametrize(
    ("patch", "rule", "labels"),
    [
        ({"face.date": "Tusday, Novenber 24, 2026"}, "date-repaired",
         ("face.date «Tusday» Tuesday", "~ face.date «Novenber» November")),
        ({"face.legends": "VOID COPY NOT NEGOTIABLE"}, "legend-void",
         ("face.legends «VOID»", "~ face.legends «COPY NOT NEGOTIABLE»")),
        ({"face.words": "", "face.figures": "$0.00"}, "amount-zero", ("face.figures «$0.00»",)),
        ({"counter.amount": "0"}, "amount-zero", ("counter.amount",)),
        ({"face.words": "twenty ten"}, "words-unclear", ("face.words «twenty ten»",)),
        ({"face.serial": "none"}, "serial-not-printed", ("face.serial «none»",)),
        ({"face.serial": "(null)"}, "serial-not-printed", ("face.serial",)),
        ({"face.endorsements": "(null)"}, "already-endorsed", ("face.endorsements",)),
        ({"face.micr": "⑆071098973⑆ 45601122⑈ 0000"}, "micr-no-serial", ("face.micr «0000»",)),
        ({"face.fraction": "100-9897/710"}, "fraction-malformed", ("face.fraction «100»",)),
        ({"counter.amount": "(absent)", "face.words": "", "face.figures": "25,000.01"},
         "amount-over-conversion-limit", ("face.figures",)),
        ({"counter.amount": "(absent)", "face.words": "Twenty-five thousand and 01/100", "face.figures": ""},
         "amount-over-conversion-limit", ("face.words",)),
        ({"face.legends": "VOID AFTER 90 DAYS. NOT VALID OVER $45.09", "face.date": ""}, "amount-over-printed-limit",
         ("face.legends «$45.09» the printed limit", "~ counter.amount $45.10")),
        ({"face.words": "Fourty-eigth and 10/100", "face.figures": "$48.10", "counter.amount": "48.10"},
         "words-repaired", ("face.words «Fourty» forty", "~ face.words «eigth» eight")),
        ({"documents": [CLEAN["documents"][0] | {"expires": "2020-05-01"}] * 2}, "id-expired",
         ("documents.0.expires", "~ documents.1.expires")),
        ({"documents": [{"kind": "library-card"}, CLEAN["documents"][0] | {"expires": "2020-05-01"}]}, "id-expired",
         ("documents.1.expires",)),
        ({"documents": [CLEAN["documents"][0], CLEAN["documents"][0] | {"is_bearer": False}]}, "id-not-bearer",
         ("documents.1.is_bearer",)),
    ],
)  # fmt: skip
def test_where_a_finding_points_when_it_is_not_the_usual_one(
    patch: dict[str, Any], rule: str, labels: tuple[str, ...]
) -> None:
    assert pointed(patched(patch), found(patch)[rule]) == labels


@pytest.mark.parametrize(
    ("rule", "past", "labels"),
    [
        ("item-seen-before", Past(seen=Seen(date(2026, 11, 17), "kept")), ("face.micr «1043»",)),
        ("item-seen-before", Past(seen=Seen(date(2026, 11, 17), "returned")), ("face.micr «1043»",)),
        ("account-on-house-list", Past(listed=True), ("face.micr «45601122»",)),
        ("velocity-count", Past(past=AccountPast(5, 0, None, ())), ("face.micr «45601122»",)),
        ("velocity-amount", Past(past=AccountPast(1, 99_999, None, ())), ("face.micr «45601122»",)),
        ("serial-far-from-last", Past(past=AccountPast(1, 1, "1544", ())), ("face.micr «1043»",)),
        ("drawer-changed", Past(past=AccountPast(1, 1, None, ("Quentin Testwell",))), ("face.drawer «Ada Sample»",)),
        ("id-many-accounts", Past(accounts=4), ("documents.0.number",)),
    ],
)
def test_what_the_records_say_points_at_what_was_looked_up(rule: str, past: Past, labels: tuple[str, ...]) -> None:
    tender = patched({"documents": LICENCE})
    findings = cf.assess(tender, cf.Policy(history={"amount": "1000.00"}), past).findings
    (finding,) = [finding for finding in findings if finding.rule == rule]
    assert pointed(tender, finding) == labels
