"""A day of some two hundred checks with planted faults: all of them are found, with their places, and nothing else is."""

from __future__ import annotations

from random import Random
from typing import Any

from clean_tender import house, patched

import checkface as cf
from checkface.audit import Assessed, Item
from checkface.audit.across import Across, Drawer, Index, declared

#: A specimen bank: accounts of eight digits, then the check number.
BANK = "071098973"


class Day:
    """Sound checks of many customers, each planted fault with the lines it is made of, and what lies in the drawer."""

    def __init__(self, seed: int) -> None:
        self.random = Random(seed)
        self.tenders: list[dict[str, Any]] = []
        self.drawer: list[dict[str, Any]] = []
        self.truth: set[tuple[str, tuple[int, ...]]] = set()
        self.accounts = iter(self.random.sample(range(10_000_000, 99_999_999, 1_009), 400))
        self.serials = iter(self.random.sample(range(2_000, 9_900, 7), 400))
        self.cents = iter(self.random.sample(range(1_000, 40_000, 37), 400))

    def check(self, **changed: Any) -> dict[str, Any]:
        """One sound personal check of a customer of its own, taken as it should be."""
        cents = changed.pop("cents", None) or next(self.cents)
        known = {
            "bank": BANK,
            "account": str(next(self.accounts)),
            "serial": str(next(self.serials)),
            "taken": "kept",
        }
        known |= changed
        amount = f"{cents // 100}.{cents % 100:02d}"
        return known | {"amount": amount}

    def add(self, *, in_drawer: bool | None = None, **changed: Any) -> int:
        """Put a check in the file, and in the drawer if it was kept; the line it stands on."""
        check = self.check(**changed)
        line = len(self.tenders) + 2
        micr = f"⑆{check['bank']}⑆ {check['account']}⑈ {check['serial']}"
        self.tenders.append(
            patched(
                {
                    "id": f"{line:04d}", "face.micr": micr, "face.serial": check["serial"], "face.words": "(absent)",
                    "face.fraction": "(absent)", "face.figures": f"${check['amount']}", "counter.amount": check["amount"],
                    "counter.purchase": check["amount"], "taken_as": check["taken"],
                    "counter.network": check.get("network", "up" if check["taken"] == "converted" else "down"),
                    "face.signature": check.get("signature", True),
                }
            )
        )  # fmt: skip
        if (check["taken"] == "kept") if in_drawer is None else in_drawer:
            self.drawer.append({"face": {"micr": micr}})
        return line

    def plant(self, rule: str, *lines: int) -> None:
        self.truth.add((rule, tuple(sorted(lines))))

    def findings(self) -> set[tuple[str, tuple[int, ...]]]:
        """What the audit finds, by rule and lines of the file; papers of the drawer as lines below zero."""
        order = list(range(len(self.drawer)))
        self.random.shuffle(order)
        drawer = Drawer()
        for number in order:
            drawer.add_paper("drawer.csv", Item(number + 1, cf.parse(self.drawer[number])))
        kept = sum(round(float(t["counter"]["amount"]) * 100) for t in self.tenders if t["taken_as"] == "kept")
        totals = [
            declared(f"kept={(kept - 1) // 100}.{(kept - 1) % 100:02d}"),
            declared(f"kept@7/3={kept // 100}.{kept % 100:02d}"),
        ]
        with Index() as index:
            across = Across(index=index, drawer=drawer, totals=totals)
            found = []
            for line, tender in enumerate(self.tenders, 2):
                found += across.add("day.csv", Assessed(line, cf.assess(tender, house())))
            found += across.finish()
        assert not any(across.counts.unread[rule] for rule in across.counts.unread if rule != "layout-unlike-its-bank")
        assert all("12345" not in one.message for one in found)
        return {
            (one.rule, tuple(sorted(-p.line if p.file == "drawer.csv" else p.line for p in one.places)))
            for one in found
        }


def planted(seed: int) -> Day:
    day = Day(seed)
    sound = [day.add(taken="converted" if day.random.random() < 0.6 else "kept") for _ in range(150)]
    assert len(sound) == 150
    day.plant("converted-though-barred", day.add(taken="converted", network="down"))
    day.plant("kept-though-convertible", day.add(network="up"))
    day.plant("taken-though-declined", day.add(signature=False))
    both = day.add(taken="converted", signature=False)
    day.plant("converted-though-barred", both)
    day.plant("taken-though-declined", both)
    day.plant("kept-check-missing", day.add(in_drawer=False))
    day.plant("converted-check-in-drawer", day.add(taken="converted", in_drawer=True), -len(day.drawer))
    day.plant("returned-check-in-drawer", day.add(taken="returned", in_drawer=True), -len(day.drawer))
    day.drawer.append({"face": {"micr": f"⑆{BANK}⑆ 55667788⑈ 444"}})
    day.plant("drawer-check-unexplained", -len(day.drawer))
    one = day.check(taken="converted")
    twice = {"account": one["account"], "serial": one["serial"], "cents": 12345, "taken": "converted"}
    day.plant("same-item-twice", day.add(**twice), day.add(**twice))
    one = day.check()
    again = {"account": one["account"], "serial": one["serial"], "cents": 23456}
    kept, converted = day.add(**again), day.add(**again, taken="converted")
    day.plant("same-item-converted-and-kept", kept, converted)
    day.plant("converted-check-in-drawer", converted, -len(day.drawer))
    for serial, other in (("1043", "1048"), ("5163", "5136")):
        account = str(next(day.accounts))
        cents = next(day.cents)
        day.plant(
            "near-duplicate",
            *(day.add(account=account, serial=s, cents=cents, taken="converted") for s in (serial, other)),
        )
    cents, serial = next(day.cents), str(next(day.serials))
    day.plant(
        "near-duplicate",
        *(day.add(account=a, serial=serial, cents=cents, taken="converted") for a in ("61234567", "61284567")),
    )
    for _ in range(120):
        day.add(bank="074098750", taken="converted")
    day.plant("counterfeit-run", *(day.add(cents=48733) for _ in range(6)))
    day.plant("counterfeit-run", *(day.add(serial="1001") for _ in range(5)))
    account = str(next(day.accounts))
    day.plant("counterfeit-run", *(day.add(account=account, serial=str(700 + n), taken="converted") for n in range(7)))
    day.plant("layout-unlike-its-bank", day.add(account="9123456789", taken="converted"))
    # Handed back, then cured and taken: no fault.
    account, serial, cents = str(next(day.accounts)), str(next(day.serials)), next(day.cents)
    day.add(account=account, serial=serial, cents=cents, taken="returned")
    day.add(account=account, serial=serial, cents=cents)
    day.truth.add(("totals-disagree", ()))
    return day


def test_exactly_what_was_planted() -> None:
    for seed in (1, 2, 3):
        day = planted(seed)
        assert 300 < len(day.tenders) < 340
        assert day.findings() == day.truth


def test_a_sound_day_shows_nothing_but_the_declared_cent() -> None:
    day = Day(4)
    for _ in range(200):
        day.add(taken="converted" if day.random.random() < 0.6 else "kept")
    assert day.findings() == {("totals-disagree", ())}
