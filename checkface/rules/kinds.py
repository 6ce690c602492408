"""The kinds of paper that are never converted, each by its own rule.

A rule finds its kind when anything positive says so: what the clerk declared, the line, or wording on the face.
Evidence for one kind never silences another, so more evidence can only make the answer stricter. Personal checks have
no rule here: they are what is left when no other kind is in evidence and something says that they are personal.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.instruments import Weight
from checkface.reading import NEEDS
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.span import Span
from checkface.tender import Kind


class _Entry(NamedTuple):
    kind: Kind
    id: str
    effect: Effect
    by: str
    title: str
    asks: str
    why: str
    example: str
    do: str
    convertible_by_house: bool = False


_KEEP = Effect.KEEP
_BOOK = (
    _Entry(
        Kind.TREASURY_CHECK, "treasury-check", _KEEP, "nacha-ineligible 12-cfr-229-app-a hhs-acf-treasury",
        "A check drawn on the United States Treasury.",
        "Does the routing number, the wording or the clerk say that the Treasury is the drawer?",
        "A government item is not a source document for an electronic debit; the debit would be returned while the "
        "paper is already voided.",
        "The line carries 000000518 and the face says United States Treasury.",
        "Keep it, within its one year; compare the payee with the identification, and feel for the watermark.",
    ),
    _Entry(
        Kind.POSTAL_MONEY_ORDER, "postal-money-order", _KEEP, "nacha-ineligible tfm-4-7000",
        "A money order of the United States Postal Service.",
        "Does the routing number, the wording or the clerk say that this is a postal money order?",
        "It is a government obligation with no account to debit: the number on its line is a serial.",
        "The line begins with 000000204 and the serial has eleven digits.",
        "Keep it. Hold it to the light for the portrait and the dark thread; it never lapses.",
    ),
    _Entry(
        Kind.MONEY_ORDER, "money-order", _KEEP, "nacha-ineligible ucc-3-104",
        "A money order.",
        "Does the wording or the clerk say that this is a money order?",
        "Its issuer has already been paid and owes it; there is no consumer's account behind it to debit.",
        "The face says MONEY ORDER above the amount, and the drawer's line reads purchaser.",
        "Keep it, with the purchaser's name and signature filled in.",
    ),
    _Entry(
        Kind.CASHIERS_CHECK, "cashiers-check", _KEEP, "nacha-ineligible ucc-3-104",
        "A cashier's check.",
        "Does the wording or the clerk say that a bank drew this on itself?",
        "It is the bank's own obligation, and the number on its line is not the customer's account.",
        "The face says CASHIER'S CHECK, and an officer of the bank has signed.",
        "Keep it. For a large amount call the issuing bank, at a number found elsewhere than on the check.",
    ),
    _Entry(
        Kind.TELLERS_CHECK, "tellers-check", _KEEP, "nacha-ineligible ucc-3-104",
        "A teller's check or other official check.",
        "Does the wording or the clerk say that one bank drew this on another?",
        "It is a bank's own obligation; the customer's account is nowhere on its line.",
        "The face says OFFICIAL CHECK, and the bank it is drawn on is not the bank that issued it.",
        "Keep it.",
    ),
    _Entry(
        Kind.CERTIFIED_CHECK, "certified-check", _KEEP, "nacha-ineligible ucc-3-409",
        "A certified check.",
        "Does a stamp or the clerk say that the bank has accepted this check in writing?",
        "The bank has set the money aside and owes it on the paper; a debit to the account would pay twice.",
        "CERTIFIED is stamped across the face, with the bank's name, a date and a signature.",
        "Keep it.",
    ),
    _Entry(
        Kind.TRAVELERS_CHECK, "travelers-check", _KEEP, "nacha-ineligible ucc-3-104",
        "A traveler's check.",
        "Does the wording, the prefix 80 or the clerk say that this is a traveler's check?",
        "It is prepaid and needs two matching signatures; there is no account to debit.",
        "TRAVELERS CHEQUE on the face and one signature already at the top.",
        "Watch the second signature being written, compare the two, keep it.",
    ),
    _Entry(
        Kind.GOVERNMENT_CHECK, "government-check", _KEEP, "nacha-ineligible common-practice",
        "A check or warrant of a state or local government.",
        "Does the wording or the clerk name a state, county, city or its treasurer as the drawer?",
        "Items not payable through a participating bank cannot be debited, and a warrant may have its own term.",
        "WARRANT in the legend, and the county treasurer as drawer.",
        "Keep it; look for a term printed on the face. A California warrant lapses after a year (Gov. Code 17070).",
    ),
    _Entry(
        Kind.FEDERAL_BANK_ITEM, "federal-bank-item", _KEEP, "nacha-ineligible 12-cfr-229-app-a",
        "An item of a Federal Reserve Bank or a Federal Home Loan Bank.",
        "Does the wording or the clerk name such a bank as the one it is drawn on?",
        "These items are barred from conversion by name.",
        "The face is drawn on a Federal Home Loan Bank for a savings institution's customer.",
        "Keep it.",
    ),
    _Entry(
        Kind.CREDIT_LINE_DRAFT, "credit-line-draft", _KEEP, "nacha-ineligible",
        "A draft on a credit line: a card issuer's convenience check or a home-equity draft.",
        "Does the wording or the clerk say that this draws on credit rather than on a deposit?",
        "A loan account cannot be debited through the network.",
        "The legend says that the check is a cash advance on a card account.",
        "Keep it, if the house takes such drafts at all.",
    ),
    _Entry(
        Kind.INVESTMENT_DRAFT, "investment-draft", _KEEP, "nacha-ineligible",
        "A draft on an investment company.",
        "Does the wording or the clerk name a fund or a brokerage as the one that pays?",
        "A fund's draft is payable through a bank, not from a deposit account there.",
        "The face says payable through, below the name of a money-market fund.",
        "Keep it.",
    ),
    _Entry(
        Kind.REMOTELY_CREATED_CHECK, "remotely-created-check", _KEEP, "nacha-ineligible 12-cfr-229-2-fff",
        "A remotely created check.",
        "Does the wording, the processing code or the clerk say that the account holder did not sign this?",
        "It carries no signature of the account holder, and nobody has one to hand over at a counter.",
        "In place of a signature the face says that none is required.",
        "Do not convert; ask how the customer came by it.",
    ),
    _Entry(
        Kind.SUBSTITUTE_CHECK, "substitute-check", _KEEP, "nacha-ineligible 12-usc-5003",
        "A substitute check: a printed picture of a check.",
        "Does the legal-copy legend, the processing code or the clerk say so?",
        "It is the legal equal of the original, which has been through a bank already.",
        "The legend reads: This is a legal copy of your check.",
        "Do not convert; a manager asks why a bank's copy is at the counter.",
    ),
    _Entry(
        Kind.FOREIGN_CURRENCY_CHECK, "foreign-currency-check", _KEEP, "nacha-ineligible 12-usc-5002",
        "A check payable in other than United States money.",
        "Does the wording, the line or the clerk name another currency?",
        "It is not a check under the federal acts, and the debit network moves dollars only.",
        "The legal line ends in Canadian dollars.",
        "Do not convert; most houses do not take it.",
    ),
    _Entry(
        Kind.COUNTER_CHECK, "counter-check", Effect.REFER, "nacha-serial common-practice",
        "A starter or counter check with nothing pre-printed.",
        "Is the paper one a bank hands out blank, without the drawer's name or a printed number?",
        "Nothing on it ties the account to the person who signs, and the required printed serial is missing.",
        "The drawer's name is written by hand above a line that carries the account alone.",
        "Call the manager; ask for a check with the name printed.",
    ),
    _Entry(
        Kind.BUSINESS, "business-check", _KEEP, "house-policy",
        "A business check.",
        "Does the drawer, the wording or the clerk say that an organization is the drawer?",
        "The network lets a small business check without an auxiliary field convert; most counters keep them all, "
        "because the one who signs may not speak for the account.",
        "The drawer's line reads as a company with its legal form.",
        "Keep it, unless the policy lists business among the convertible kinds.",
        True,
    ),
    _Entry(
        Kind.PAYROLL, "payroll-check", _KEEP, "house-policy",
        "A payroll check.",
        "Does the wording or the clerk say that this pays wages?",
        "It is drawn on an employer's account and made out to the customer, who endorses it.",
        "PAYROLL in the legend and a stub with hours.",
        "Keep it, endorsed by the payee.",
        True,
    ),
    _Entry(
        Kind.SAVINGS_BOND, "savings-bond", Effect.REFER, "common-practice",
        "A savings bond.",
        "Does the number, the wording or the clerk say that this is a United States savings bond?",
        "It is not a check: its owner redeems it in person at a bank, and nobody can endorse it over.",
        "The line begins with 000090007, a number remembered as that of bonds.",
        "Hand it back after the manager has looked.",
    ),
    _Entry(
        Kind.OTHER, "other-check", _KEEP, "house-policy",
        "A kind of check outside the list.",
        "Did the clerk declare a kind that is none of those the book knows?",
        "Only personal checks may be converted; what is something else is kept.",
        "The clerk presses other for an insurance draft.",
        "Keep it, or call the manager.",
    ),
)  # fmt: skip


def _labels(case: Case, kind: Kind) -> tuple[Label, ...]:
    labels: list[Label] = []
    for piece in case.read.kind.evidence:
        if piece.kind is kind:
            reading, span = case.read.place(piece.reading, piece.span)
            labels.append(at(reading, span, piece.words, primary=not labels))
    if case.read.counter.declared_kind is kind:
        labels.append(at("counter.declared_kind", None, "declared", primary=not labels))
    return tuple(labels)


#: Kinds that are made out to the customer: their payee is the person to compare, and no third party.
PAID_TO_CUSTOMER = frozenset({Kind.PAYROLL, Kind.TREASURY_CHECK, Kind.GOVERNMENT_CHECK})

_LEGENDS = NEEDS["legends"]

#: What a personal check looks like: nothing speaks for any other kind.
ONLY_PERSONAL = frozenset({Kind.PERSONAL})


def _personal(case: Case) -> Outcome | None:
    """Where the one kind in evidence is personal, no rule for another kind has anything to find."""
    return _wording_seen(case) if case.read.kinds == ONLY_PERSONAL else None


def _wording_seen(case: Case) -> Outcome:
    """Held where somebody looked for legends; what a kind is called stands there, and nobody may have read it yet."""
    return Outcome.HELD if (case.read.known | case.read.blank) & _LEGENDS else UNREAD


def _is_open(case: Case, kind: Kind) -> bool:
    """Whether each mark that speaks for the kind leaves others open too, so that it may be this one and need not."""
    if kind is case.read.kind.kind or kind is case.read.counter.declared_kind:
        return False
    marks: dict[bool, set[tuple[str, Span | None]]] = {True: set(), False: set()}
    for piece in case.read.kind.evidence:
        if piece.weight is not Weight.HINT:
            marks[piece.kind is kind].add((piece.reading, piece.span))
    return marks[True] <= marks[False]


def _asks_for(entry: _Entry) -> Callable[[Case], Answer]:
    kind, convertible_by_house = entry.kind, entry.convertible_by_house
    title = entry.title.rstrip(".")
    do = ": refer to a manager." if entry.effect is Effect.REFER else ": keep, never convert."
    sure, unsure = title + do, f"May be {title[0].lower()}{title[1:]}{do}"

    def ask(case: Case) -> Answer:
        if kind not in case.read.kinds:
            return None if _wording_seen(case) is Outcome.HELD else UNREAD
        if convertible_by_house and kind in case.policy.kinds.convertible:
            return None
        return Hit(unsure if _is_open(case, kind) else sure, _labels(case, kind))

    ask.__module__ = __name__
    return ask


for _entry in _BOOK:
    rule(
        _entry.id,
        _entry.effect,
        by=_entry.by,
        floor=None if _entry.convertible_by_house else _entry.effect,
        gate=_personal,
        remedy=Remedy.MANAGER if _entry.effect is Effect.REFER else Remedy.NONE,
        explanation=f"{_entry.title}\n\nWhat it asks: {_entry.asks}\nWhy it matters: {_entry.why}\n"
        f"Example: {_entry.example}\nWhat to do: {_entry.do}",
    )(_asks_for(_entry))


@rule("kind-undetermined", Effect.KEEP, by="nacha-ineligible common-practice", remedy=Remedy.REREAD, floor=Effect.KEEP)
def kind_undetermined(case: Case) -> Answer:
    """Nothing says what kind of check this is.

    What it asks: Does anything positive - the clerk, the line, the drawer, the wording - name the kind?
    Why it matters: Only personal checks may be converted. A kind nobody has determined is not a personal check by
        default.
    Example: The line is ordinary, no drawer was read, and the clerk declared nothing.
    What to do: Look at the drawer's name and the legends and declare the kind; otherwise keep the check.
    """
    if case.read.kinds:
        return None
    return Hit("The kind of check is not determined: keep.", (at("counter.declared_kind"),))


@rule("kind-contradicts-declared", Effect.REFER, by="common-practice", remedy=Remedy.MANAGER)
def kind_contradicts_declared(case: Case) -> Answer:
    """The paper says another kind than the clerk declared.

    What it asks: Declared personal, does the line or the wording say otherwise?
    Why it matters: The button pressed at the lane decides whether the check is voided and handed back. A money order
        declared personal is a loss that no debit makes good.
    Example: Declared personal, and the legend says PAYROLL.
    What to do: Call the manager, who declares the kind again with the paper in hand.
    """
    declared = case.read.counter.declared_kind
    if declared is None:
        return NOT_APPLICABLE
    if declared is not Kind.PERSONAL or case.read.kinds == ONLY_PERSONAL:
        return None
    others = case.read.kinds - ONLY_PERSONAL
    named = ", ".join(sorted(others))
    marks: dict[tuple[str, int, int], Label] = {}
    for label in (label for kind in sorted(others) for label in _labels(case, kind)):
        # One mark may speak for two kinds: it is shown once, and only the first of all is primary.
        marks.setdefault((label.reading, label.start, label.end), label._replace(primary=not marks))
    evidence = tuple(marks.values())
    return Hit(f"Declared {declared}, but the paper says {named}.", evidence or (at("counter.declared_kind"),))


@rule("kind-not-accepted", Effect.DECLINE, by="house-policy")
def kind_not_accepted(case: Case) -> Answer:
    """The house does not take this kind of check.

    What it asks: Is every kind in evidence among the kinds the policy accepts?
    Why it matters: A house may refuse any kind, as long as it refuses it to everyone alike.
    Example: The policy takes personal and payroll checks only, and a traveler's check is tendered.
    What to do: Hand it back, ask for another form of payment.
    """
    if case.read.kinds <= case.policy.kinds.taken:
        return None
    refused = sorted(case.read.kinds - case.policy.kinds.taken)
    return Hit(f"This house does not take: {', '.join(refused)}.", _labels(case, refused[0]))
