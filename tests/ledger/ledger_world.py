"""One bank, one day, one check: what every ledger test starts from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import checkface as cf
from checkface.findings import Disposition
from checkface.ledger import Entry, Ledger

BANK = "011394776"
ACCOUNT = "1234567890"
DAY = date(2026, 11, 24)
MOMENT = datetime(2026, 11, 24, 9, 30)


@dataclass
class Place:
    """Where a ledger is kept; ``open`` opens it again, as another process would."""

    url: str
    key: Path

    def open(self, **how: Any) -> Ledger:
        return Ledger.open(self.url, self.key, **how)


def entry(serial: str = "1043", cents: int | None = 4510, done: Any = "kept", **more: Any) -> Entry:
    """One check of one account on one day, unless told otherwise."""
    given = {"routing": BANK, "account": ACCOUNT, "day": DAY, "at": MOMENT, "disposition": Disposition.KEEP}
    return Entry(serial=serial, amount_cents=cents, done=done, **(given | more))


def assessed(
    serial: str = "1043",
    cents: int | None = 4510,
    told: Disposition = Disposition.KEEP,
    account: str = ACCOUNT,
    documents: tuple[str, ...] = (),
) -> Any:
    """As much of an assessment as a till writes down, with its numbers read."""
    face = {"micr": f"A{BANK}A {account}C {serial}", "serial": serial}
    counter = {"on": DAY.isoformat(), "amount": None if cents is None else f"{cents // 100}.{cents % 100:02d}"}
    shown = [{"kind": "drivers-license", "number": number} for number in documents]
    read = cf.read(cf.parse({"face": face, "counter": counter, "documents": shown}))
    return SimpleNamespace(read=read, disposition=told)
