"""The kind of paper from all its evidence.

The strongest evidence there is decides, and only if it speaks for one kind, or for one that is a special case of
the others (a postal money order is a money order). A personal check needs an ordinary line and a drawer that looks
like people, with nothing at all to the contrary; anything less stays undetermined.

>>> line = LineFacts(series="primary", auxiliary=False, account=True, country="US")
>>> people = {"drawer": "JORDAN Q SPECIMEN\\n12 MAPLE ST\\nANYTOWN PA 15001"}
>>> infer(line, people).kind
<Kind.PERSONAL: 'personal'>
>>> infer(line, people | {"legends": "CASHIER'S CHECK"}).kind
<Kind.CASHIERS_CHECK: 'cashiers-check'>
>>> infer(line, {"drawer": "CORNER FLORIST\\n12 MAPLE ST"}).kind is None
True
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from checkface.instruments import drawer, line
from checkface.instruments.address import names
from checkface.instruments.kinds import Evidence, Inference, Kind, Legend, LineFacts, Weight
from checkface.instruments.phrases import Hit, scan
from checkface.span import Span

_WEIGHTS = tuple(Weight)
_ORDINARY = frozenset({Kind.PERSONAL, Kind.BUSINESS, Kind.PAYROLL, Kind.COUNTER_CHECK})
_SPECIAL_CASES: Mapping[Kind, frozenset[Kind]] = {
    Kind.SUBSTITUTE_CHECK: frozenset(Kind) - {Kind.SUBSTITUTE_CHECK},
    Kind.FOREIGN_CURRENCY_CHECK: frozenset(Kind) - {Kind.SUBSTITUTE_CHECK, Kind.FOREIGN_CURRENCY_CHECK},
    Kind.POSTAL_MONEY_ORDER: frozenset({Kind.MONEY_ORDER, Kind.BUSINESS}),
    Kind.TREASURY_CHECK: frozenset({Kind.GOVERNMENT_CHECK, Kind.BUSINESS}),
    Kind.REMOTELY_CREATED_CHECK: _ORDINARY,
    Kind.CERTIFIED_CHECK: _ORDINARY,
}
"""Kinds that hold their own against the more general ones named."""


def infer(facts: LineFacts | None, wording: Mapping[str, str]) -> Inference:
    """Infer the kind from the MICR line (None if it was not read) and the wording.

    *wording* maps the name of a reading to its text, lines parted by line breaks: ``legends``, ``drawer``, ``drawee``,
    ``payee``, ``words``, ``figures``, ``signature``, ``endorsements``, ``date``. Spans are into each text.
    """
    ordinary = facts is not None and line.is_ordinary(facts)
    found = [] if facts is None or ordinary else list(line.evidence(facts))  # an ordinary line speaks for no kind
    legends: list[Legend] = []
    if hits := scan(wording):
        found += _from_wording(hits, wording, legends)
    if not found and (named := drawer.people(wording.get("drawer", ""))):
        weight = Weight.STRONG if ordinary else Weight.HINT
        found.append(Evidence(Kind.PERSONAL, weight, "drawer", named, "a person's name over an address"))
    kind = _settle(found) if found else None
    rivals = _rivals(found, kind) if len(found) > 1 or kind is None else ()
    return Inference(kind, tuple(found), rivals, tuple(legends))


def _from_wording(hits: Sequence[Hit], wording: Mapping[str, str], legends: list[Legend]) -> Iterator[Evidence]:
    """The evidence of the phrases found; those that are no kind are put to *legends*."""
    bank: Legend | None = None
    asides = drawer.asides(wording["drawer"]) if any(hit.reading == "drawer" for hit in hits) else []
    for hit in hits:
        if hit.reading == "drawer" and any(aside.start <= hit.span.start < aside.end for aside in asides):
            continue
        if hit.phrase.kinds:
            words = f"the wording {_shown(wording, hit)}"
            yield from (Evidence(kind, hit.weight, hit.reading, hit.span, words) for kind in hit.phrase.kinds)
        else:
            legend = Legend(hit.phrase.family, hit.phrase.id, hit.reading, hit.span, hit.phrase.source)
            legends.append(legend)
            bank = bank or (legend if legend.family == "bank-name" else None)
    if bank:
        yield from _drawn_by_bank(bank, wording)


def _shown(wording: Mapping[str, str], hit: Hit) -> str:
    return " ".join(hit.span.of(wording[hit.reading]).split())[:60]


def _drawn_by_bank(bank: Legend, wording: Mapping[str, str]) -> Iterator[Evidence]:
    """UCC 3-104(g), (h): drawn on itself it is a cashier's check, drawn on another bank a teller's check."""
    text = wording["drawer"]
    before = text[: bank.span.end].splitlines()[-1]
    same = drawer.same_bank(names(before + text[bank.span.end :].partition("\n")[0]), wording.get("drawee", ""))
    surname = bank.id == "bank-name-end" and drawer.people(text[bank.span.end - len(before) :]) is not None
    if same is None or (surname and not same):
        weight = Weight.HINT if surname else Weight.STRONG
        for kind in (Kind.CASHIERS_CHECK, Kind.TELLERS_CHECK):
            yield Evidence(kind, weight, bank.reading, bank.span, "a bank as drawer")
    else:
        kind = Kind.CASHIERS_CHECK if same else Kind.TELLERS_CHECK
        words = "a bank as drawer and drawee" if same else "a bank as drawer, on another as drawee"
        yield Evidence(kind, Weight.STRONG, bank.reading, bank.span, words)


def _rivals(found: Sequence[Evidence], kind: Kind | None) -> tuple[Kind, ...]:
    strongest_first = sorted(found, key=lambda evidence: _WEIGHTS.index(evidence.weight))
    return tuple(dict.fromkeys(evidence.kind for evidence in strongest_first if evidence.kind is not kind))


def _settle(found: Sequence[Evidence]) -> Kind | None:
    """The kind that the strongest evidence settles; hints settle nothing."""
    if len(found) == 1:
        return None if found[0].weight is Weight.HINT else found[0].kind
    for weight in (Weight.DECISIVE, Weight.STRONG):
        kinds = {evidence.kind for evidence in found if evidence.weight is weight}
        if not kinds:
            continue
        if len(kinds) > 1 and (settled := _only_special(kinds) or _only_supported(found, weight, kinds)):
            return settled
        return kinds.pop() if len(kinds) == 1 else None
    return None


def _only_special(kinds: set[Kind]) -> Kind | None:
    """The one kind of which all the others are the more general case; any kind is a special case of business."""
    for kind in kinds:
        general = _SPECIAL_CASES.get(kind, frozenset({Kind.BUSINESS} if kind is not Kind.PERSONAL else ()))
        if kinds - {kind} <= general:
            return kind
    return None


def _only_supported(found: Sequence[Evidence], weight: Weight, kinds: set[Kind]) -> Kind | None:
    """Where one and the same wording leaves several kinds open, the one that strong evidence speaks for."""
    places: dict[Kind, set[tuple[str, Span | None]]] = {}
    for evidence in found:
        if evidence.weight is weight:
            places.setdefault(evidence.kind, set()).add((evidence.reading, evidence.span))
    if weight is Weight.STRONG or len({frozenset(where) for where in places.values()}) > 1:
        return None
    supported = {e.kind for e in found if e.weight is Weight.STRONG} & kinds
    return supported.pop() if len(supported) == 1 else None
