"""Read the amount in the courtesy box: every value the figures can have, with the reason for each.

Figures carry no redundancy, so nothing is chosen silently: a missing point, a single cents digit, the marks of
another country or a letter read for a digit leave the verdict at ``review`` or ``ambiguous``, and the words choose
(see :func:`checkface.amounts.compare`). What nothing can show is a digit taken for another digit, added or lost.

>>> read_figures("$1,234.56").cents
123456
>>> [candidate.cents for candidate in read_figures("1250").candidates]
[125000, 1250]
>>> read_figures("1.2K").message
'Expected figures spelled out, read "K".'
"""

from __future__ import annotations

import re
import unicodedata

from checkface.amounts.figure_forms import FormValues, read_core
from checkface.amounts.model import LARGEST, Candidate, FiguresAmount, Repair, distinct, money, quoted
from checkface.amounts.scan import SPACES, invisible
from checkface.patterns import lazily
from checkface.span import Fault, Span

LIMIT = 200
"""Characters. A courtesy box holds some twenty."""

_CLEAN = lazily(r"\$?((?:[1-9]\d{0,2}(?:,\d{3}){1,2}|[1-9]\d{0,8}|0)\.\d\d)", re.ASCII)


def read_figures(text: str) -> FiguresAmount | Fault:
    """The amount in *text*, in cents, or the :class:`Fault` that keeps it from being one.

    Fault kinds: ``figures-blank``, ``figures-too-long``, ``figures-hidden-character``,
    ``figures-foreign-currency``, ``figures-negative``, ``figures-shorthand``, ``figures-two-amounts``,
    ``figures-grouping``, ``figures-decimals``, ``figures-denominator``, ``figures-cents-over-99``,
    ``figures-malformed``, ``figures-zero`` and ``figures-over-range``.
    """
    match = _CLEAN.fullmatch(text)
    if match is None or "888" in text:
        return read_carefully(text)
    cents = int(match[1].replace(",", "").replace(".", ""))
    if not cents:
        return read_carefully(text)
    return FiguresAmount(cents, (Candidate(cents, "as written"),), (), "clear", (), {"amount": Span(*match.span(1))})


# One for one, so that offsets stay those of the raw text. Raised digits stay: they tell cents from dollars.
_FOLD = str.maketrans(
    "０１２３４５６７８９⁄∕／．，＄‐‑−–―•‧∙⋅’‘ʼ＇\t\r\n" + SPACES,
    "0123456789///.,$----—····''''   " + " " * len(SPACES),
)
_CURRENCY = lazily(
    r"[€£¥₹]|(?<![a-z])(?:c|ca|cad|a|au|nz|hk|r)\s?\$|(?<![a-z])(?:cad|eur|gbp|mxn|aud|rs)(?![a-z])", re.IGNORECASE
)
_PREFIX = lazily(
    r"(?:[\s*~_=#$]|-{2,}+|(?:exactly|only|just|the sum of|pay|usd|us|u\.s\.|s[oó]lo|son)(?![a-z])|dollars )*",
    re.IGNORECASE,
)
_SUFFIX = lazily(
    r"(?:(?:(?<=[.·-][0-9]{2})|(?<=[⁰¹²³⁴⁵⁶⁷⁸⁹]{2}))\s*+(?:x++|/[-—=]++|\|)|(?<=/100)\s*+x++|[\s*~_=#$]"
    r"|(?<![-.,·/])(?<![.,·/]\s)(?<!-0)(?:-|—)++|\.{2,}+|(?<=[.·][0-9]{2})[.,](?:-|—)*+"
    r"|(?<![a-z])(?:only|exactly|dollars?|dols?|usd|us|d[oó]lar(?:es)?|estadounidenses?|americanos?)\.?)++$",
    re.IGNORECASE,
)
"""Dashes behind the amount are a line drawn against alteration; behind a point they stand for no cents."""
_MINUS = lazily(r"(?:(?<=[.·][0-9]{2})|(?<=[.·]\s[0-9]{2}))[\s*~_=#]*-(?![-—])")
"""A single dash behind cents, which may be the minus of a credit."""
_LETTERS = str.maketrans("OoQlI|iSsBbZz", "0001111558622")
_MISREAD = lazily(r"[OoQlI|iSsBbZz]")
_DIVIDED = lazily(r"((?:[1-9]\d{0,2}(?:,\d{3}){1,2}|\d{1,9}))\s?[|Il]\s?(\d\d)", re.ASCII)
_ONLY_MISREAD = lazily(r"[0-9OoQlI|iSsBbZz,.\s/-]*[0-9][0-9OoQlI|iSsBbZz,.\s/-]*")


def read_carefully(text: str) -> FiguresAmount | Fault:
    """As :func:`read_figures`, by the general forms alone."""
    whole = Span(0, len(text))
    if len(text) > LIMIT:
        return Fault("figures-too-long", whole, f"at most {LIMIT} characters", f"{len(text):,}")
    if not text.strip():
        return Fault("figures-blank", whole, "an amount in figures", "a blank box")
    folded = text.translate(_FOLD)
    for place, mark in enumerate(folded):
        if invisible(mark):
            name = unicodedata.name(mark, f"U+{ord(mark):04X}")
            span = Span(place, place + 1)
            return Fault("figures-hidden-character", span, "characters that show on paper", f"the invisible {name}")
    currency = _CURRENCY.search(folded)
    if currency:
        return Fault("figures-foreign-currency", Span(*currency.span()), "United States dollars", quoted(currency[0]))
    prefix = _PREFIX.match(folded)
    start = prefix.end() if prefix else 0
    suffix = _SUFFIX.search(folded, start)
    end = suffix.start() if suffix else len(folded)
    span = Span(start, end)
    if start == end:
        return Fault("figures-blank", whole, "an amount in figures", "a box without figures")
    core = folded[start:end]
    reading: FormValues | Fault = read_core(core, span)
    repairs: tuple[Repair, ...] = ()
    if isinstance(reading, Fault) and _MISREAD.search(core) and _ONLY_MISREAD.fullmatch(core):
        mended = _mended(core, span)
        if mended is not None:
            reading, repairs = mended
    if isinstance(reading, Fault):
        return reading
    if reading.verdict == "clear" and _MINUS.match(folded, end):
        reading = reading._replace(verdict="review", reasons=("a minus may stand behind the amount",))
    return _finish(reading, repairs, span, text)


def _mended(core: str, span: Span) -> tuple[FormValues, tuple[Repair, ...]] | None:
    """The reading once letters that look like digits are put back, and one Repair for each of them."""
    reading = read_core(core.translate(_LETTERS), span)
    if isinstance(reading, Fault):
        return None
    repairs = tuple(
        Repair(Span(span.start + found.start(), span.start + found.end()), found[0], found[0].translate(_LETTERS))
        for found in _MISREAD.finditer(core)
    )
    reasons = tuple(f"{quoted(repair.read)} was taken for {repair.taken}" for repair in repairs)
    verdict = "review" if reading.verdict == "clear" else reading.verdict
    stands = " and ".join(f"{quoted(repair.read)} stands for {repair.taken}" for repair in repairs)
    candidates = tuple(
        candidate._replace(reason=f"if {stands}") if candidate.reason == "as written" else candidate
        for candidate in reading.candidates
    )
    line = _DIVIDED.fullmatch(core)
    if line:  # a printed rule between dollars and cents looks like a one
        value = int(line[1].replace(",", "") + line[2])
        candidates, verdict = (Candidate(value, "if the line parts dollars and cents"), *candidates), "ambiguous"
    if core[0] in "Ss|":
        sign = "$" if core[0] in "Ss" else "the edge of the box"
        unsigned = read_core(core[1:].translate(_LETTERS), span)
        if isinstance(unsigned, FormValues):
            signed = tuple(c._replace(reason=f"if {quoted(core[0])} stands for {sign}") for c in unsigned.candidates)
            candidates, verdict = (*signed, *candidates), "ambiguous"
    return FormValues(candidates, verdict, (*reasons, *reading.reasons)), repairs


def _finish(reading: FormValues, repairs: tuple[Repair, ...], span: Span, text: str) -> FiguresAmount | Fault:
    whole = Span(0, len(text))
    candidates = distinct(reading.candidates)
    if not candidates:
        first = reading.candidates[0].cents
        if first == 0:
            return Fault("figures-zero", whole, "an amount above zero", "zero")
        return Fault("figures-over-range", whole, f"at most {money(LARGEST)}", "more")
    verdict, reasons = reading.verdict, reading.reasons
    if re.fullmatch("8{3,}", str(candidates[0].cents // 100)):
        reasons = (*reasons, "the eights may be slashed zeros")
        verdict = "review" if verdict == "clear" else verdict
    if verdict == "ambiguous" and len(candidates) == 1:
        verdict = "review"  # whatever is meant, only this amount can be paid
    cents = None if verdict == "ambiguous" else candidates[0].cents
    return FiguresAmount(cents, candidates, repairs, verdict, reasons, {"amount": span})
