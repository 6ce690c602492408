"""How fast and how well payloads are read, beside a general reader of the same standard (PyPI aamva-parser).

Run with ``pytest tests/benchmarks/bench_identity.py -s``: one table of accuracy and time over the same
payloads, clean ones of every version and issuer and every named deformation. A reader is right when it gives the
holder's family name and expiry; wrong when it gives another; else it refused or left a part unread.
"""

from __future__ import annotations

import random
import sys
import time
from collections import Counter
from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path

import pytest

from checkface import identity
from checkface.span import Fault

sys.path.insert(0, str(Path(__file__).parents[1] / "identity"))
from identity_payloads import DEFORMATIONS, Holder, holder, issuers, payload, plain

Answer = tuple[str, date | None]


def everyone() -> list[tuple[Holder, random.Random]]:
    rng = random.Random(4)
    return [(holder(*issuer, version, rng), rng) for issuer in issuers() for version in range(1, 13)]


def ours(text: str) -> Answer:
    found = identity.read_barcode(text)
    return ("", None) if isinstance(found, Fault) else (found.family, found.expires.on)


def general(text: str) -> Answer:
    import aamva_parser

    try:
        found = aamva_parser.parse(text)
    except Exception:  # whatever it raises on a deformed payload is a refusal
        return "", None
    until = found.expiration_date
    return found.last_name or "", until.date() if isinstance(until, datetime) else until


def judge(read: Callable[[str], Answer], samples: list[tuple[Holder, str]]) -> tuple[Counter[str], float]:
    counts: Counter[str] = Counter()
    start = time.perf_counter()
    answers = [read(text) for _, text in samples]
    spent = time.perf_counter() - start
    for (who, _), (family, until) in zip(samples, answers, strict=True):
        same = plain(family) == plain(who.family)  # a stripe has no accents
        if same and until == who.expires:
            counts["right"] += 1
        elif (family and not same) or (until and until != who.expires):
            counts["wrong"] += 1
        else:
            counts["unread"] += 1
    return counts, spent / len(samples)


def test_one_table_of_accuracy_and_time():
    people = everyone()
    groups = {
        "clean, US": [(who, payload(who)) for who, _ in people if who.country == "USA"],
        "clean, Canada": [(who, payload(who)) for who, _ in people if who.country == "CAN"],
        "deformed": [(who, deform(who, rng)) for who, rng in people[::4] for deform in DEFORMATIONS.values()],
    }
    readers: dict[str, Callable[[str], Answer]] = {"checkface.identity": ours}
    try:
        import aamva_parser  # noqa: F401

        readers["aamva-parser"] = general
    except ImportError:
        pass
    print(f"\n{'payloads':16}{'reader':20}{'number':>8}{'right':>8}{'unread':>8}{'wrong':>8}{'us each':>9}")
    for group, samples in groups.items():
        for reader, read in readers.items():
            read(samples[0][1])
            counts, each = judge(read, samples)
            shares = "".join(f"{counts[kind] / len(samples):>8.1%}" for kind in ("right", "unread", "wrong"))
            print(f"{group:16}{reader:20}{len(samples):>8}{shares}{each * 1e6:>9.0f}")
            if reader == "checkface.identity":
                assert counts["wrong"] == 0
                assert counts["right"] / len(samples) > (0.99 if group != "deformed" else 0.85)


@pytest.mark.parametrize("reader", [ours, general], ids=["checkface", "aamva-parser"])
def test_a_clean_payload(benchmark, reader):
    if reader is general:
        pytest.importorskip("aamva_parser")
    texts = [payload(who) for who, _ in everyone() if who.version == 10]
    benchmark(lambda: [reader(text) for text in texts])
    if benchmark.stats:
        print(f"\n{benchmark.stats['min'] / len(texts) * 1e6:.0f} us a payload")


def test_a_name_comparison(benchmark):
    benchmark(
        identity.names_agree, ["MICHAEL J SAMPLE", "2300 WEST BROAD STREET"], identity.Name("SAMPLE", "MICHAEL", "JOHN")
    )
