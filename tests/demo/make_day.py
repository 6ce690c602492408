"""Make the demo day: one invented store's Saturday, and the truth about it.

The truth is planted, not computed: every tender says here which rules must find something in it, and nothing of
checkface is imported. Run ``python tests/demo/make_day.py`` to write ``data/demo/`` and to see the auditor's command; a test holds
the committed files to it.
"""

from __future__ import annotations

import csv
import io
from typing import Any

from evening import close, plant_across
from invented import COLUMNS, DATA, HOUSE, NONE_SHOWN, Day, money_forms
from lanes import TAKEN, serve
from natural import naturally


def plant_in_the_line(day: Day) -> None:
    """What is wrong with, or said by, the magnetic-ink line."""

    def line(shape: str, planted: str, answer: str = "", encoded: str = "", **more: str) -> None:
        bank = day.far()
        account, serial, routing = day.account(bank), day.serial(), bank["routing"]
        text = shape.format(
            r=routing, a=account, s=serial, encoded=encoded, open_r=f"{routing[:4]}?{routing[5:]}",
            open_rr=f"{routing[:2]}??{routing[4:]}", open_a=f"{account[:4]}?{account[5:]}",
        )  # fmt: skip
        amount = money_forms(3980) if encoded else {}
        fixed = {"face.fraction": bank["fraction"], "face.serial": serial, "face.micr": text, **amount}
        day.plant(planted, answer=answer, **{**fixed, **more})

    sound = "⑆{r}⑆ {a}⑈ {s}"
    line(sound, "micr-keyed", **{"counter.micr_by": "keyed"})
    line(sound, "micr-keyed", **{"counter.micr_by": "corrected"})
    line("", "micr-not-read")
    line("(illegible)", "micr-not-read")
    line("⑆{open_r}⑆ {a}⑈ {s}", "micr-unread-character", "keep")
    line("⑆{r}⑆ {open_a}⑈ {s}", "micr-unread-character", "keep")
    line("⑆{open_rr}⑆ {a}⑈ {s}", "micr-unread-character")
    line("SMUDGED BEYOND READING", "micr-malformed")
    line("⑆00123⑉004⑆ 567⑉89012⑈", "micr-foreign", **{"face.fraction": ""})
    line("⑈00{s}⑈ ⑆{r}⑆ {a}⑈", "micr-auxiliary-on-us")
    line(sound + " ⑇{encoded}⑇", "micr-amount-encoded", encoded="0000003980")
    line(sound + " ⑇{encoded}⑇", "micr-amount-encoded encoded-amount-differs", encoded="0000003890")
    line("⑆{r}⑆", "micr-no-account micr-no-serial")
    line(f"4{sound}", "micr-substitute-check substitute-check kind-contradicts-declared")
    line("2⑆{r}⑆", "micr-qualified-return", **{"face.fraction": ""})
    line(f"6{sound}", "micr-remotely-created remotely-created-check kind-contradicts-declared")
    line("⑆{r}⑆ {a}⑈ 2034", "serial-differs", **{"face.serial": "2043"})
    line("⑆{r}⑆ {a}⑈ 1043 27", "micr-layout-ambiguous", **{"face.serial": "(not looked at)"})


def plant_in_the_routing_number(day: Day) -> None:
    """Numbers that cannot be, and fractions that do not fit."""

    def number(text: str, planted: str, fraction: str = "", natural: str = "") -> None:
        serial, account = day.serial(), str(day.dice.randint(10**9, 10**10 - 1))
        line = f"⑆{text}⑆ {account}⑈ {serial}"
        day.plant(planted, natural, **{"face.micr": line, "face.serial": serial, "face.fraction": fraction})

    number("071098974", "routing-checksum", "70-9897/710")
    number("000000000", "routing-all-zero routing-government", natural="drawee-unclear")
    number("1234⑉5678", "routing-old-form")
    number("671098975", "routing-electronic-only", natural="drawee-unclear")
    number("451098973", "routing-checksum routing-unassigned-prefix", natural="drawee-unclear")
    number("011000015", "routing-federal-bank federal-bank-item kind-contradicts-declared", "53-1/110")
    number("071098973", "fraction-differs", "70-9898/710")
    number("071098973", "fraction-outside-district", "90-9897/710")
    number("071098973", "fraction-malformed", "70-9897")


def plant_in_the_amounts(day: Day) -> None:
    """Words, figures and what was keyed."""

    def amount(planted: str, cents: int, natural: str = "", **changes: str) -> None:
        day.plant(planted, natural, **{**money_forms(cents), **changes})

    amount("amounts-disagree amount-differs-from-keyed", 4510, **{"face.words": "Fifty-four and 10/100"})
    amount(
        "amounts-disagree amount-differs-from-keyed",
        6130,
        "amount-over-house-limit",
        **{"face.words": "Six hundred thirteen and 00/100"},
    )
    amount("words-unclear", 2275, **{"face.words": "(illegible)"})
    amount("words-unclear", 1800, **{"face.words": "Eighteen dollars and three apples"})
    amount("words-unclear", 4510, "amount-over-house-limit", **{"face.words": "forty five ten"})
    amount("words-repaired", 4462, **{"face.words": "Fourty-four and 62/100"})
    amount("words-blank", 3317, **{"face.words": ""})
    amount("figures-blank", 5205, **{"face.figures": ""})
    amount("figures-unclear", 7140, **{"face.figures": "(illegible)"})
    amount("amount-differs-from-keyed", 3690, **{"counter.amount": "39.60", "counter.purchase": "39.60"})
    amount("amount-zero", 2890, **{"face.figures": "0.00", "face.words": "Zero and 00/100"})
    amount("amount-over-printed-limit", 8395, **{"face.legends": "NOT VALID OVER $25.00"})
    amount("amount-over-conversion-limit", 2_500_001)
    amount("cash-back-over-casher-threshold", 180_000, **{"counter.purchase": "500.00"})


def plant_in_the_dates(day: Day) -> None:
    """Too early, too late, unreadable, or slipped."""
    for text, planted in (
        ("", "date-blank"),
        ("(illegible)", "date-unreadable"),
        ("02/30/2026", "date-unreadable"),
        ("11/22/2026", "date-in-future"),
        ("12/01/26", "date-in-future date-order-unclear"),
        ("04/30/2026", "date-stale"),
        ("07/31/2026", "date-overdue"),
        ("Nov 21", "date-without-year"),
        ("Monday November 16 2026", ""),
        ("Friday November 16 2026", "date-weekday-differs"),
        ("Novembre 20, 2026", "date-repaired"),
        ("11/12/2026", "date-order-unclear"),
        ("10/11/2026", ""),
    ):
        day.plant(planted, **{"face.date": text})
    day.plant("date-past-printed-limit", **{"face.date": "08/31/2026", "face.legends": "VOID AFTER 60 DAYS"})
    day.plant("date-last-january", **{"face.date": "January 9, 2025", "counter.on": "2026-01-10"})


def plant_in_the_face(day: Day) -> None:
    """Signature, parties, legends."""
    day.plant("signature-missing", **{"face.signature": "no"})
    day.plant(
        "signature-missing",
        **{"face.signature": "no", "face.words": "", "face.figures": ""},
        natural="words-blank figures-blank",
    )
    day.plant("reading-not-taken", **{"face.signature": "(not looked at)"})
    day.plant("payee-blank", answer=TAKEN, **{"face.payee": "(illegible)"})
    day.plant(
        "several-payees payee-not-house", natural="third-party-check", **{"face.payee": "Ada Mockridge and Ben Trialby"}
    )
    day.plant("serial-not-printed", **{"face.serial": ""})
    day.plant("drawer-not-printed", **{"face.drawer": ""})
    day.plant("legend-void", **{"face.legends": "VOID"})
    day.plant("legend-void", **{"face.legends": "NON-NEGOTIABLE"})
    day.plant("already-converted", **{"face.legends": "PROCESSED ELECTRONICALLY 11/14/2026"})
    day.plant("already-endorsed", **{"face.endorsements": "FOR DEPOSIT ONLY"})
    day.plant("altered", **{"face.alterations": "yes"})
    day.plant("conditional-wording", **{"face.legends": "PAID IN FULL"})
    day.plant("counter-check kind-contradicts-declared drawer-not-printed serial-not-printed",
              **{"face.legends": "COUNTER CHECK", "face.drawer": "", "face.serial": ""})  # fmt: skip
    day.plant("kind-contradicts-declared money-order", **{"face.legends": "MONEY ORDER"})
    day.plant("kind-contradicts-declared cashiers-check", **{"face.legends": "CASHIER'S CHECK"})
    day.plant(
        "kind-undetermined",
        natural="pillar-not-seen",
        **{"counter.declared_kind": "", "face.drawer": "(not looked at)"},
    )
    day.plant("network-down", **{"counter.network": "down"})
    day.plant("authorization-not-signed", **{"counter.authorization_signed": "no"})


def plant_in_the_identification(day: Day) -> None:
    """The document shown."""
    day.plant("id-missing", **{"documents.kind": NONE_SHOWN})
    day.plant("id-expired", **{"documents.expires": "2026-11-20"})
    day.plant("id-not-bearer", **{"documents.is_bearer": "no"})
    day.plant("id-state-unknown", **{"documents.state": "43"})
    day.plant("drawer-differs-from-id", **{"documents.name": "Quentin Otherwell"})
    day.plant("id-number-forbidden", **{"documents.number": "4111 1111 1111 1111"})
    day.plant("id-kind-not-accepted id-not-photo", **{"documents.kind": "social-security-card", "documents.state": ""})


def other_kinds(day: Day) -> None:
    """Paper that is sound, and kept by its nature."""
    for _ in range(28):
        day.take(day.firm("business"), "", "business-check micr-auxiliary-on-us")
    for _ in range(8):
        row = day.firm("payroll", **{"face.legends": "PAYROLL", "cents": day.dice.randint(31_200, 98_750)})
        row["face.payee"] = row["documents.name"]
        day.take(row, "", "payroll-check business-check micr-auxiliary-on-us")
    for serial in ("20481133", "20481134", "20517702"):
        row = day.personal(**{
            "face.micr": f"⑆000000518⑆ {serial}⑈", "face.fraction": "", "face.serial": serial, "face.words": "",
            "face.drawer": "UNITED STATES TREASURY", "face.drawee": "UNITED STATES TREASURY", "face.date": "11/13/2026",
            "counter.declared_kind": "treasury",
        })  # fmt: skip
        row["face.payee"] = row["documents.name"]
        day.take(row, "", "treasury-check routing-government")
    for serial in ("88382013445", "56152240784"):
        day.take(day.personal(**{
            "face.micr": f"⑆000000204⑆ {serial}⑈", "face.fraction": "", "face.serial": serial,
            "face.payee": HOUSE, "face.legends": "UNITED STATES POSTAL MONEY ORDER", "face.drawer": "",
            "counter.declared_kind": "postal-money-order",
        }), "", "postal-money-order routing-government")  # fmt: skip
    day.take(day.personal(**{
        **money_forms(120_000), "face.micr": "⑆000000204⑆ 88382013445⑈", "face.fraction": "", "face.serial": "88382013445",
        "face.payee": HOUSE, "face.legends": "UNITED STATES POSTAL MONEY ORDER", "face.drawer": "",
        "counter.declared_kind": "postal-money-order",
    }), "postal-money-order-over-maximum", "postal-money-order routing-government")  # fmt: skip
    for kind, rule, legend in (
        ("money-order", "money-order", "MONEY ORDER"),
        ("money-order", "money-order", "MONEY ORDER"),
        ("cashiers-check", "cashiers-check", "CASHIER'S CHECK"),
        ("cashiers-check", "cashiers-check", "CASHIERS CHECK"),
        ("tellers-check", "tellers-check", "TELLER'S CHECK"),
        ("government-check", "government-check", "WARRANT"),
    ):
        row = day.firm(kind, **{"face.legends": legend, "face.drawer": ""})
        if kind == "government-check":
            row["face.payee"] = row["documents.name"]
        day.take(row, "", f"{rule} micr-auxiliary-on-us")
    day.take(
        day.firm("certified", **{"face.legends": "CERTIFIED"}),
        "",
        "certified-check business-check micr-auxiliary-on-us",
    )
    day.take(
        day.firm("travelers-check", **{"face.legends": "TRAVELERS CHEQUE", "face.drawer": "", "face.countersignature": "yes"}),
        "", "travelers-check micr-auxiliary-on-us",
    )  # fmt: skip
    day.take(
        day.firm("travelers-check", **{"face.legends": "TRAVELERS CHEQUE", "face.drawer": "", "face.countersignature": "no"}),
        "travelers-countersignature", "travelers-check micr-auxiliary-on-us",
    )  # fmt: skip


def build(seed: int = 21) -> Day:
    """The whole day, in an order in which faults stand among sound checks, and its evening."""
    day = Day(seed)
    for _ in range(288):
        day.take(day.personal())
    for part in (
        plant_in_the_line, plant_in_the_routing_number, plant_in_the_amounts, plant_in_the_dates, plant_in_the_face,
        plant_in_the_identification, other_kinds, naturally, plant_across, serve,
    ):  # fmt: skip
        part(day)
    day.shuffled()
    close(day)
    return day


def as_csv(header: list[str], rows: list[Any]) -> str:
    """CSV text of *rows*, given as dicts by *header* or as tuples."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(header)
    writer.writerows([row.get(name, "") for name in header] if isinstance(row, dict) else row for row in rows)
    return out.getvalue()


def files(day: Day) -> dict[str, str]:
    """Name and content of the files of the demo day."""
    truth = [(row["id"], rule, why) for row, rule, why in day.truth]
    facts = [(fact.rule, day.places(fact), fact.why) for fact in day.in_order()]
    return {
        "saturday.csv": as_csv(COLUMNS, day.rows),
        "saturday-truth.csv": as_csv(["id", "rule", "why"], truth),
        "saturday-drawer.csv": as_csv(["face.micr", "face.serial", "counter.amount"], day.drawer),
        "saturday-evening-truth.csv": as_csv(["rule", "places", "why"], facts),
    }


_EVENING = "--across --drawer data/demo/saturday-drawer.csv"


def command(day: Day) -> str:
    """The auditor's command, with what the tapes of the day declare."""
    words = ["checkface audit data/demo/saturday.csv --policy data/demo/house.toml", _EVENING, *day.declared]
    return " ".join(words)


if __name__ == "__main__":
    made = build()
    for name, content in files(made).items():
        (DATA / "demo" / name).write_text(content, encoding="utf-8", newline="")
    print(command(made))
