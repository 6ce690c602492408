"""The one clean tender every fixture starts from: an invented store, an invented customer, a specimen routing number."""

from __future__ import annotations

import copy
import tomllib
from typing import Any

from checkface.policy import Policy

#: The name under which the invented store takes checks, as a policy says it.
NAMED_TOML = '[payee]\nnames = ["Quillfeather Grocery"]\n'
NAMED: dict[str, Any] = tomllib.loads(NAMED_TOML)

CLEAN: dict[str, Any] = {
    "id": "0001",
    "face": {
        "micr": "⑆071098973⑆ 45601122⑈ 1043",
        "fraction": "70-9897/710",
        "serial": "1043",
        "date": "11/24/2026",
        "payee": "Quillfeather Grocery",
        "figures": "$45.10",
        "words": "Forty-five and 10/100",
        "drawer": ["Ada Sample", "12 Example Lane", "Springfield IL"],
        "drawee": ["Specimen Savings Bank", "Springfield IL"],
        "legends": "",
        "signature": True,
        "endorsements": "",
        "alterations": False,
    },
    "counter": {
        "on": "2026-11-24",
        "declared_kind": "personal",
        "amount": "45.10",
        "purchase": "45.10",
        "micr_by": "reader",
        "network": "up",
        "authorization_signed": True,
        "store": "7",
        "lane": "3",
        "employee": "114",
    },
    "documents": [
        {"kind": "drivers-license", "state": "17", "expires": "2029-05-01", "name": "Ada Sample", "is_bearer": True}
    ],
}


def house(text: str = "") -> Policy:
    """The invented store's policy, with what the TOML *text* says beside its name."""
    return Policy.model_validate(NAMED | tomllib.loads(text))


def patched(patch: dict[str, Any]) -> dict[str, Any]:
    """The clean tender with dotted paths of *patch* set; the value ``"(absent)"`` removes the key, ``"(null)"`` is null."""
    tender = copy.deepcopy(CLEAN)
    for path, value in patch.items():
        *parents, last = path.split(".")
        at = tender
        for parent in parents:
            at = at.setdefault(parent, {})
        if value == "(absent)":
            at.pop(last, None)
        else:
            at[last] = None if value == "(null)" else value
    return tender
