"""One bank, one day, one check: what every ledger test starts from."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from checkface import micr
from checkface.findings import Disposition
from checkface.ledger import Entry, Ledger
from checkface.tender import ABSENT

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
    line = micr.read(f"A{BANK}A {account}C 1043", notation="font-letters")
    assert isinstance(line, micr.MicrLine), line
    assert (line.routing, line.account) == (BANK, account)
    tender = SimpleNamespace(documents=tuple(SimpleNamespace(number=number) for number in documents))
    read = SimpleNamespace(
        micr=line,
        serial=serial,
        tender=tender,
        amount_cents=cents,
        counter=SimpleNamespace(on=DAY, employee=""),
        face=SimpleNamespace(drawer=ABSENT),
    )
    return SimpleNamespace(read=read, disposition=told)
