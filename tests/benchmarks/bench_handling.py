"""What instructions cost: made, worked out and drawn.

Run with ``pytest tests/benchmarks/bench_handling.py --benchmark-enable``; the ratios are printed, nothing is asserted.
"""

from __future__ import annotations

from typing import Any

import pytest
from clean_tender import CLEAN

from checkface.decision import Decision
from checkface.findings import Disposition
from checkface.handling import handle, preview_svg, preview_text
from checkface.policy import Policy
from checkface.reading import read
from checkface.rules import Examination
from checkface.tender import Tender

POLICY = Policy()
READ = read(Tender.model_validate(CLEAN))


@pytest.mark.parametrize("disposition", Disposition)
def test_wire(benchmark: Any, disposition: Disposition) -> None:
    """The wire form of fresh instructions."""
    decision = Decision(disposition, Examination((), {}, READ, POLICY), POLICY.digest)
    benchmark.group = "handling"
    assert benchmark(lambda: handle(decision, READ, POLICY).wire())


def test_handle(benchmark: Any) -> None:
    """Making instructions works nothing out: a small part of any other figure of this group."""
    decision = Decision(Disposition.CONVERT, Examination((), {}, READ, POLICY), POLICY.digest)
    benchmark.group = "handling"
    assert benchmark(handle, decision, READ, POLICY).disposition is Disposition.CONVERT


@pytest.mark.parametrize("preview", [preview_text, preview_svg], ids=lambda preview: preview.__name__)
def test_preview(benchmark: Any, preview: Any) -> None:
    """Previews for a person."""
    benchmark.group = "handling"
    assert benchmark(
        preview, handle(Decision(Disposition.CONVERT, Examination((), {}, READ, POLICY), POLICY.digest), READ, POLICY)
    )
