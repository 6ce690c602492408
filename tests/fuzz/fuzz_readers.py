"""Every reader on whatever a fuzzer thinks of: none may raise, whatever the text.

This is no test and is not collected; it runs on request, with atheris, in an environment of its own::

    python -m venv .fuzz && .fuzz/bin/pip install atheris -e .
    mkdir -p .fuzz/found
    .fuzz/bin/python tests/fuzz/fuzz_readers.py .fuzz/found tests/fuzz/corpus -max_total_time=300 -timeout=5

New inputs that reach new code are written to the first folder; the others are only read. An input that raises is
written to a file called ``crash-...`` in the current folder, one that takes too long to ``timeout-...``; give such a file
in place of the folders to run it alone. When its fault is mended, it goes to ``corpus``, whose files
``test_fuzz_corpus.py`` runs through the same function without atheris.

Each input goes to every reader as text (UTF-8, stray bytes as lone surrogates), to ``read_barcode`` as bytes too, to
``assess`` as all readings of a face, and, if it is JSON, as a tender.
"""

from __future__ import annotations

import importlib
import pkgutil
import sys
from datetime import date
from typing import Any

ON = date(2026, 11, 24)
READINGS = ("micr", "fraction", "serial", "date", "payee", "figures", "words", "drawer", "drawee", "legends",
            "endorsements")  # fmt: skip


def try_everything(data: bytes) -> None:
    """Hand *data* to every reader. Raises what a reader raises, and AssertionError for a fault outside its text."""
    import checkface as cf

    text = data.decode("utf-8", "surrogateescape")
    readers = (
        cf.micr.read,
        cf.routing.read,
        cf.routing.read_fraction,
        cf.amounts.read_words,
        cf.amounts.read_figures,
        lambda raw: cf.dates.read(raw, ON),
        cf.identity.read_barcode,
        cf.identity.read_stripe,
        cf.identity.read_mrz,
        lambda raw: cf.identity.read_keyed("drivers-license", raw, raw, raw),
        cf.instruments.legend_limits,
        cf.instruments.payees,
        lambda raw: cf.instruments.infer(None, dict.fromkeys(READINGS, raw)),
    )
    for reader in readers:
        read = reader(text)
        repr(read)
        if isinstance(read, cf.Fault):
            assert 0 <= read.span.start <= read.span.end <= len(text), read.kind
            assert read.message
    cf.identity.read_barcode(data)
    _assessed(cf, {"face": dict.fromkeys(READINGS, text), "counter": {"on": ON}})
    _assessed(cf, data)


def _assessed(cf: Any, wire: Any) -> None:
    """A tender judged to its wire form; what is none may only be refused in the one way there is."""
    try:
        tender = cf.parse(wire)
    except cf.TenderError:
        return
    assessment = cf.assess(tender)
    assessment.model_dump_json()
    assessment.model_dump_json(reveal=True)


def main() -> None:
    """Fuzz until told to stop."""
    import atheris

    # Every module at once: what a reader loads when it is first asked would stay without the counters that guide.
    with atheris.instrument_imports(include=["checkface"]):
        for room in ("amounts", "dates", "identity", "instruments", "micr", "routing", "rules", "handling", "report"):
            folder = importlib.import_module(f"checkface.{room}")
            for module in pkgutil.iter_modules(folder.__path__, f"{folder.__name__}."):
                importlib.import_module(module.name)
    atheris.Setup(sys.argv, try_everything)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
