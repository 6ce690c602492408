"""One invented store's checks, as dice and a hand full of names make them. Nothing of checkface is imported.

All names are invented; the routing numbers are specimens that belonged to nobody in three public directories.
"""

from __future__ import annotations

import csv
import random
from pathlib import Path
from typing import Any

DATA = Path(__file__).parents[2] / "data"
DAY = "2026-11-21"
HOUSE = "Quillfeather Grocery"
GIVEN = [
    "Ada",
    "Ben",
    "Cleo",
    "Dov",
    "Edda",
    "Finn",
    "Greta",
    "Hal",
    "Ines",
    "Jory",
    "Kit",
    "Lena",
    "Milo",
    "Nell",
    "Otis",
    "Pia",
    "Quin",
    "Rhea",
    "Sol",
    "Tess",
    "Umi",
    "Vera",
    "Wim",
    "Zoe",
]
FAMILY = [
    "Sampleton",
    "Mockridge",
    "Testwell",
    "Specimer",
    "Exampler",
    "Fauxley",
    "Drafton",
    "Formley",
    "Placeholm",
    "Trialby",
    "Proofman",
    "Dummock",
]
STREETS = ["Example Lane", "Sample Street", "Specimen Road", "Proof Court", "Draft Avenue"]
FIRMS = (
    "Larch & Pebble LLC",
    "Example Roofing Inc.",
    "Sample Tile Company",
    "Specimen Bakery, Inc.",
    "Mock Orchard Supply Corp.",
)
NONE_SHOWN = "(none shown)"
ONES = [
    "Zero",
    "One",
    "Two",
    "Three",
    "Four",
    "Five",
    "Six",
    "Seven",
    "Eight",
    "Nine",
    "Ten",
    "Eleven",
    "Twelve",
    "Thirteen",
    "Fourteen",
    "Fifteen",
    "Sixteen",
    "Seventeen",
    "Eighteen",
    "Nineteen",
]
TENS = ["_", "_", "Twenty", "Thirty", "Forty", "Fifty", "Sixty", "Seventy", "Eighty", "Ninety"]
COLUMNS = [
    "id", "face.micr", "face.fraction", "face.serial", "face.date", "face.payee", "face.figures", "face.words",
    "face.drawer", "face.drawee", "face.legends", "face.signature", "face.countersignature", "face.endorsements",
    "face.alterations", "counter.on", "counter.declared_kind", "counter.amount", "counter.purchase", "counter.micr_by",
    "counter.network", "counter.authorization_signed", "counter.store", "counter.lane", "counter.employee",
    "documents.kind", "documents.number", "documents.state", "documents.expires", "documents.name", "documents.is_bearer",
]  # fmt: skip


def spelled(number: int) -> str:
    """Whole dollars in words, in the American way."""
    if number < 20:
        return ONES[number]
    if number < 100:
        return TENS[number // 10] + (f"-{ONES[number % 10].lower()}" if number % 10 else "")
    scale, name = (1000, "thousand") if number >= 1000 else (100, "hundred")
    rest = f" {spelled(number % scale).lower()}" if number % scale else ""
    return f"{spelled(number // scale)} {name}{rest}"


class Day:
    """Tenders in the order in which they came, each with the rules that must find something."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.rows: list[dict[str, str]] = []
        self.truth: list[tuple[str, str, str]] = []
        self.banks = self._banks()

    @staticmethod
    def _banks() -> list[dict[str, str]]:
        lines = (DATA / "specimen_routing.csv").read_text(encoding="utf-8").splitlines()
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))

    def personal(self, **changes: Any) -> dict[str, str]:
        """One clean personal check: dice choose hand, layout, notation and amount; *changes* are set on top."""
        dice = self.dice
        bank = dice.choice(self.banks)
        cents = changes.pop("cents", None) or dice.randint(350, 28999)
        serial = str(changes.pop("number", None) or dice.randint(1001, 9899))
        account = changes.pop("account", None) or str(dice.randint(10_000_000, 9_999_999_999))
        name = f"{dice.choice(GIVEN)} {dice.choice(FAMILY)}"
        purchase = cents - dice.choice([0, 0, 0, 0, 1000, 2000])
        state_code = dice.choice(["17", "18", "29", "55"])
        row = {
            "face.micr": self.line(bank["routing"], account, serial),
            "face.fraction": bank["fraction"],
            "face.serial": serial,
            "face.date": dice.choice(
                [
                    "11/21/2026",
                    "11/21/26",
                    "11-21-26",
                    "Nov 21, 2026",
                    "November 21, 2026",
                    "21 Nov 2026",
                    "11/20/2026",
                    "11.21.2026",
                ]
            ),
            "face.payee": dice.choice([HOUSE, HOUSE, HOUSE.upper(), "Quillfeather", ""]),
            "face.figures": self.figures(cents),
            "face.words": self.words(cents),
            "face.drawer": f"{name} | {dice.randint(1, 999)} {dice.choice(STREETS)} | Springfield {bank['state']}",
            "face.drawee": f"Specimen Savings Bank | Springfield {bank['state']}",
            "face.legends": "",
            "face.signature": "yes",
            "face.endorsements": "",
            "face.alterations": "no",
            "counter.on": DAY,
            "counter.declared_kind": "personal",
            "counter.amount": f"{cents // 100}.{cents % 100:02d}",
            "counter.purchase": f"{max(purchase, 100) // 100}.{max(purchase, 100) % 100:02d}",
            "counter.micr_by": "reader",
            "counter.network": "up",
            "counter.authorization_signed": "yes",
            "counter.store": "7",
            "counter.lane": str(dice.randint(1, 9)),
            "counter.employee": str(dice.randint(101, 130)),
            "documents.kind": "drivers-license",
            "documents.state": state_code,
            "documents.expires": f"{dice.randint(2027, 2033)}-0{dice.randint(1, 9)}-1{dice.randint(0, 9)}",
            "documents.name": name,
            "documents.is_bearer": "yes",
        }
        row.update({key: str(value) for key, value in changes.items()})
        if row["documents.kind"] == NONE_SHOWN:
            row.update({key: "" for key in row if key.startswith("documents.")})
        return row

    def line(self, routing: str, account: str, serial: str) -> str:
        """A personal line in one of the layouts and notations that leave nothing open."""
        shape = self.dice.choice(
            [
                "T{r}T {a}O {s}",
                "T{r}T {a}O {s}",
                "T{r}T{a}O{s}",
                "T{r}T  {a}O  {s}",
                "T{r}TO{a}O {s}",
                "T{r}T {s}O {a}O",
            ]
        )
        text = shape.format(r=routing, a=account, s=serial)
        symbols = self.dice.choice(["⑆⑇⑈⑉", "⑆⑇⑈⑉", "⑆⑇⑈⑉", ":;<=", "TAOD"])
        return text.translate(str.maketrans("TAOD", symbols))

    def business_line(self, bank: dict[str, str], account: str, serial: str) -> str:
        """The standard business line: the serial in the auxiliary on-us field."""
        return f"⑈{serial.zfill(6)}⑈ ⑆{bank['routing']}⑆ {account}⑈"

    def figures(self, cents: int) -> str:
        """The courtesy box in one of the forms that leave nothing open."""
        dollars, rest = divmod(cents, 100)
        return self.dice.choice(
            [
                f"${dollars:,}.{rest:02d}",
                f"{dollars:,}.{rest:02d}",
                f"**{dollars:,}.{rest:02d}**",
                f"{dollars} {rest:02d}/100",
            ]
        )

    def words(self, cents: int) -> str:
        """The legal line in one hand of several."""
        dollars, rest = divmod(cents, 100)
        text = spelled(dollars)
        tail = f"{rest:02d}/100" if rest else self.dice.choice(["00/100", "no/100", "xx/100"])
        return self.dice.choice(
            [f"{text} and {tail}", f"{text} and {tail} dollars", f"{text} & {tail}", f"{text.upper()} AND {tail}",
             f"{text.replace('-', ' ')} and {tail} ------", f"{text} dollars and {tail}"]
        )  # fmt: skip

    def firm(self, kind: str, **changes: Any) -> dict[str, str]:
        """A check of an organization: long paper, the serial in the auxiliary field."""
        bank, serial = self.dice.choice(self.banks), str(self.dice.randint(2001, 98999))
        line = self.business_line(bank, str(self.dice.randint(10_000_000, 9_999_999_999)), serial)
        return self.personal(
            **{
                "face.micr": line,
                "face.fraction": bank["fraction"],
                "face.serial": serial,
                "face.payee": HOUSE,
                "face.drawer": f"{self.dice.choice(FIRMS)} | {self.dice.randint(1, 999)} {self.dice.choice(STREETS)}",
                "counter.declared_kind": kind,
                **changes,
            }
        )

    def take(self, row: dict[str, str], planted: str = "", natural: str = "") -> None:
        """Add one tender; *planted* and *natural* are blank-separated rule ids that must find something in it."""
        row["id"] = f"{len(self.rows) + 1:04d}"
        also = "payee-blank" if row["face.payee"] == "" else ""
        self.rows.append(row)
        self.truth += [(row["id"], rule, "planted") for rule in planted.split()]
        self.truth += [(row["id"], rule, "by nature") for rule in f"{natural} {also}".split()]

    def shuffled(self) -> Day:
        """The same tenders in another order, numbered anew."""
        order = list(range(len(self.rows)))
        self.dice.shuffle(order)
        renamed = {self.rows[old]["id"]: f"{new:04d}" for new, old in enumerate(order, 1)}
        self.rows = [{**self.rows[old], "id": renamed[self.rows[old]["id"]]} for old in order]
        self.truth = sorted((renamed[tender], rule, why) for tender, rule, why in self.truth)
        return self

    def plant(self, planted: str, natural: str = "", **changes: Any) -> None:
        """A personal check, spoilt by *changes*; a payee is always written so that nothing else is found."""
        self.take(self.personal(**{"face.payee": HOUSE, "face.date": "11/21/2026", **changes}), planted, natural)


def money_forms(cents: int) -> dict[str, str]:
    """The amount the same on every reading, for a tender whose fault lies elsewhere."""
    text = f"{cents // 100}.{cents % 100:02d}"
    words = f"{spelled(cents // 100)} and {cents % 100:02d}/100"
    return {"face.figures": f"${text}", "face.words": words, "counter.amount": text, "counter.purchase": text}
