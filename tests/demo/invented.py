"""One invented store's checks, as dice and a hand full of names make them. Nothing of checkface is imported.

All names are invented; the routing numbers are specimens that belonged to nobody in three public directories.
"""

from __future__ import annotations

import csv
import random
from collections.abc import Sequence
from itertools import cycle
from pathlib import Path
from typing import Any, NamedTuple

from lanes import strictest

DATA = Path(__file__).parents[2] / "data"
DAY = "2026-11-21"
HOUSE = "Quillfeather Grocery"
#: What the house takes without a manager, and pays out above the goods, in cents.
LIMIT, CASH_BACK = 50_000, 5_000
GIVEN = [
    "Ada", "Ben", "Cleo", "Dov", "Edda", "Finn", "Greta", "Hal", "Ines", "Jory", "Kit", "Lena", "Milo", "Nell",
    "Otis", "Pia", "Quin", "Rhea", "Sol", "Tess", "Umi", "Vera", "Wim", "Zoe",
]  # fmt: skip
FAMILY = [
    "Sampleton", "Mockridge", "Testwell", "Specimer", "Exampler", "Fauxley", "Drafton", "Formley", "Placeholm",
    "Trialby", "Proofman", "Dummock",
]  # fmt: skip
DATES = [
    "11/21/2026", "11/21/26", "11-21-26", "Nov 21, 2026", "November 21, 2026", "21 Nov 2026", "11/20/2026", "11.21.2026",
]  # fmt: skip
STREETS = ["Example Lane", "Sample Street", "Specimen Road", "Proof Court", "Draft Avenue"]
FIRMS = (
    "Larch & Pebble LLC", "Example Roofing Inc.", "Sample Tile Company", "Specimen Bakery, Inc.",
    "Mock Orchard Supply Corp.", "Placeholm Plumbing LLC", "Draft Horse Stables, Inc.", "Trialby Printing Company",
    "Proof & Sons Hardware Inc.", "Exampler Landscaping LLC", "Testwell Tire Corp.", "Formley Freight Company",
)  # fmt: skip
#: The bank on the corner, and two across the state line: three checks of four are drawn on them.
LOCAL = {"071098973": 45, "074098750": 18, "081093599": 12}
#: Each bank lays out its line in one of these ways, none of which leaves anything open.
SHAPES = ["T{r}T {a}O {s}", "T{r}T{a}O{s}", "T{r}T  {a}O  {s}", "T{r}TO{a}O {s}", "T{r}T {s}O {a}O"]
NONE_SHOWN = "(none shown)"
ONES = [
    "Zero", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve",
    "Thirteen", "Fourteen", "Fifteen", "Sixteen", "Seventeen", "Eighteen", "Nineteen",
]  # fmt: skip
TENS = [
    "_", "_", "Twenty", "Thirty", "Forty", "Fifty", "Sixty", "Seventy", "Eighty", "Ninety",
]  # fmt: skip
COLUMNS = [
    "id", "face.micr", "face.fraction", "face.serial", "face.date", "face.payee", "face.figures", "face.words",
    "face.drawer", "face.drawee", "face.legends", "face.memo", "face.signature", "face.countersignature", "face.endorsements",
    "face.alterations", "counter.on", "counter.declared_kind", "counter.amount", "counter.purchase", "counter.micr_by",
    "counter.network", "counter.authorization_signed", "counter.confirmed", "counter.store", "counter.lane", "counter.employee",
    "documents.kind", "documents.barcode", "documents.number", "documents.state", "documents.expires", "documents.name", "documents.is_bearer",
    "taken_as",
]  # fmt: skip
Row = dict[str, str]
Bank = dict[str, str]


def spelled(number: int) -> str:
    """Whole dollars in words, in the American way."""
    if number < 20:
        return ONES[number]
    if number < 100:
        return TENS[number // 10] + (f"-{ONES[number % 10].lower()}" if number % 10 else "")
    scale, name = (1000, "thousand") if number >= 1000 else (100, "hundred")
    rest = f" {spelled(number % scale).lower()}" if number % scale else ""
    return f"{spelled(number // scale)} {name}{rest}"


class Paper(NamedTuple):
    """One paper as the imager lists it in the evening."""

    micr: str
    serial: str
    amount: str


class Fact(NamedTuple):
    """What an audit of the whole day must find: a rule, the tenders it speaks of, those whose paper it found, the story."""

    rule: str
    rows: list[Row]
    papers: list[Row]
    why: str


class Day:
    """Tenders in the order in which they came, each with the rules that must find something in it."""

    def __init__(self, seed: int) -> None:
        self.dice = random.Random(seed)
        self.rows: list[Row] = []
        self.truth: list[tuple[Row, str, str]] = []
        self.facts: list[Fact] = []
        self.drawer: list[Paper] = []
        self.lying: dict[int, int] = {}
        self.declared: list[str] = []
        self.hasty: Row = {}
        self.banks = self._banks()
        self._after: list[tuple[Row, Row, int]] = []
        self._far = cycle(bank for bank in self.banks if bank["routing"] not in LOCAL)
        self._firms = {firm: (bank := self.far(), self.account(bank)) for firm in FIRMS}

    @staticmethod
    def _banks() -> list[Bank]:
        lines = (DATA / "specimen_routing.csv").read_text(encoding="utf-8").splitlines()
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))

    def far(self) -> Bank:
        """The next bank that is none of the three around the store, so that no bank gets many of one sort."""
        return next(self._far)

    def near(self) -> Bank:
        """A bank as customers have it: mostly the one on the corner."""
        weights = [LOCAL.get(bank["routing"], 25 / (len(self.banks) - len(LOCAL))) for bank in self.banks]
        return self.dice.choices(self.banks, weights)[0]

    def account(self, bank: Bank) -> str:
        """A new account: each bank numbers its own in one length."""
        length = (10, 9, 8)[self.banks.index(bank) % 3] if bank["routing"] not in LOCAL else 10
        return str(self.dice.randint(10 ** (length - 1), 10**length - 1))

    def serial(self) -> str:
        """A check number such as personal checks have."""
        return str(self.dice.randint(1001, 9899))

    def personal(self, **changes: Any) -> Row:
        """One clean personal check: dice choose hand, notation and amount; *changes* are set on top."""
        dice = self.dice
        bank = changes.pop("bank", None) or self.near()
        cents = changes.pop("cents", None) or dice.randint(350, 28999)
        serial = changes.pop("serial", None) or self.serial()
        account = changes.pop("account", None) or self.account(bank)
        name = f"{dice.choice(GIVEN)} {dice.choice(FAMILY)}"
        purchase = cents - dice.choice([0, 0, 0, 0, 1000, 2000])
        state_code = dice.choice(["17", "17", "17", "18", "29", "55"])
        row = {
            "face.micr": self.line(bank, account, serial),
            "face.fraction": bank["fraction"],
            "face.serial": serial,
            "face.date": dice.choice(DATES),
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

    def line(self, bank: Bank, account: str, serial: str) -> str:
        """A personal line as *bank* lays it out, in one of three notations."""
        shape = SHAPES[self.banks.index(bank) % len(SHAPES)] if bank["routing"] not in LOCAL else SHAPES[0]
        text = shape.format(r=bank["routing"], a=account, s=serial)
        symbols = self.dice.choice(["⑆⑇⑈⑉", "⑆⑇⑈⑉", "⑆⑇⑈⑉", ":;<=", "TAOD"])
        return text.translate(str.maketrans("TAOD", symbols))

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

    def firm(self, kind: str, **changes: Any) -> Row:
        """A check of an organization: long paper, the serial in the auxiliary field."""
        firm, serial = self.dice.choice(FIRMS), str(self.dice.randint(2001, 98999))
        bank, account = self._firms[firm]
        return self.personal(
            **{
                "bank": bank,
                "face.micr": f"⑈{serial.zfill(6)}⑈ ⑆{bank['routing']}⑆ {account}⑈",
                "face.serial": serial,
                "face.payee": HOUSE,
                "face.drawer": f"{firm} | {FIRMS.index(firm) * 37 + 11} {STREETS[FIRMS.index(firm) % len(STREETS)]}",
                "counter.declared_kind": kind,
                **changes,
            }
        )

    def take(self, row: Row, planted: str = "", natural: str = "", answer: str = "") -> Row:
        """Add one tender; *planted* and *natural* are blank-separated rule ids that must find something in it.

        The answer is the strictest that those rules ask for, unless another is given.
        """
        also = ["payee-blank"] if row["face.payee"] == "" else []
        also += ["amount-over-house-limit"] if cents_of(row) > LIMIT else []
        also += ["cash-back-over-house-limit"] if cents_of(row) - cents_of(row, "purchase") > CASH_BACK else []
        self.rows.append(row)
        self.truth += [(row, rule, "planted") for rule in planted.split()]
        self.truth += [(row, rule, "by nature") for rule in dict.fromkeys([*natural.split(), *also])]
        row["answer"] = answer or strictest([*planted.split(), *natural.split(), *also])
        return row

    def plant(self, planted: str, natural: str = "", answer: str = "", **changes: Any) -> Row:
        """A personal check, spoilt by *changes*; a payee is always written so that nothing else is found."""
        row = self.personal(**{"face.payee": HOUSE, "face.date": "11/21/2026", **changes})
        return self.take(row, planted, natural, answer)

    def follow(self, first: Row, second: Row, after: int) -> None:
        """Let *second* come so many checks *after* the *first*, on its lane."""
        self._after.append((first, second, after))

    def fact(self, rule: str, rows: list[Row], why: str, papers: Sequence[Row] = ()) -> None:
        """An audit of the whole day must find *rule* in *rows*, and in the *papers* of those in the drawer."""
        self.facts.append(Fact(rule, rows, list(papers), why))

    def having_nothing(self) -> list[Row]:
        """The tenders in which no rule finds anything."""
        found = {id(row) for row, _, _ in self.truth}
        return [row for row in self.rows if id(row) not in found]

    def is_told(self, row: Row) -> bool:
        """Whether *row* has a part in some fact already."""
        return any(row is one for fact in self.facts for one in fact.rows)

    def in_order(self) -> list[Fact]:
        """The facts by rule, and by the tenders they speak of."""
        return sorted(self.facts, key=lambda fact: (fact.rule, sorted(row["id"] for row in fact.rows)))

    def places(self, fact: Fact) -> str:
        """The lines of *fact* in both files, as ``saturday.csv:12 | saturday-drawer.csv:5``."""
        tenders = sorted(int(row["id"]) + 1 for row in fact.rows)
        papers = sorted(self.lying[id(row)] for row in fact.papers)
        lines = [f"saturday.csv:{line}" for line in tenders] + [f"saturday-drawer.csv:{line}" for line in papers]
        return " | ".join(lines)

    def shuffled(self) -> Day:
        """The same tenders in another order, numbered; a lane has one cashier before noon and one after."""
        self.dice.shuffle(self.rows)
        for first, second, after in self._after:
            self.rows = [row for row in self.rows if row is not second]
            self.rows.insert(next(at for at, row in enumerate(self.rows) if row is first) + after, second)
            second["counter.lane"] = first["counter.lane"]
        for number, row in enumerate(self.rows, 1):
            row["id"] = f"{number:04d}"
            shift = 110 if number > len(self.rows) // 2 else 100
            row["counter.employee"] = str(shift + int(row["counter.lane"]))
        self.truth.sort(key=lambda entry: (entry[0]["id"], entry[1]))
        return self

    def having(self, rule: str, taken: str = "") -> list[Row]:
        """The tenders in which *rule* must find something, of those *taken* so."""
        rows = [row for row, found, _ in self.truth if found == rule]
        return [row for row in rows if not taken or row.get("taken_as") == taken]


def cents_of(row: Row, what: str = "amount") -> int:
    """What was keyed for a tender."""
    return int(row[f"counter.{what}"].replace(".", ""))


def money_forms(cents: int) -> dict[str, str]:
    """The amount the same on every reading, for a tender whose fault lies elsewhere."""
    text = f"{cents // 100}.{cents % 100:02d}"
    words = f"{spelled(cents // 100)} and {cents % 100:02d}/100"
    return {"face.figures": f"${text}", "face.words": words, "counter.amount": text, "counter.purchase": text}
