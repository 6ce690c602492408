"""The sentences about a drawer: what slipped with which check, and how sure that is."""

from __future__ import annotations

from typing import Final

from checkface.amounts import money
from checkface.ledger.reconcile import Piece, Slip, SlipKind
from checkface.ledger.report import Report

#: As many explanations are told; where there are more, coincidence explains them.
FEW: Final = 3
_SAID: Final[dict[SlipKind, str]] = {
    "kept-missing": "{check} was kept and is not in the drawer: handed back, or lost.",
    "converted-in-drawer": "{check} was converted and is in the drawer: it must not be deposited.",
    "returned-in-drawer": "{check} was recorded as handed back and is in the drawer.",
    "counted-twice": "{check} was counted twice.",
    "amount-left-out": "{check} was left out of the total.",
    "amount-added-twice": "{check} was added into the total twice.",
    "transposed-digits": "{check} was added as {counted}: two neighbouring digits exchanged, a multiple of nine.",
    "point-slipped": "{check} was added as {counted}: the point one place off, a multiple of nine.",
    "amount-misread": "{check} was counted as {counted}.",
    "serial-differs": "{check} was counted under another serial number.",
    "stranger": "{check} was counted and was never recorded here.",
}


def sentence(slip: Slip) -> str:
    """One slip in one sentence, with whatever it may have been as well."""
    said = _SAID[slip.kind].format(check=name(slip.piece), counted=money(slip.counted_cents or 0))
    return " Or: ".join((said, *map(sentence, slip.others)))


def name(piece: Piece) -> str:
    """A check by what is known of it: serial, amount, last four of the account."""
    serial = f"Check {piece.serial}" if piece.serial else "A check without serial"
    account = f", account ending {piece.account_last4}" if piece.account_last4 else ""
    return f"{serial} ({money(piece.amount_cents)}{account})"


def amount(checks: int, cents: int) -> str:
    """``1 check, $45.10``; a sum below zero is written with its sign."""
    return f"{_checks(checks)}, {'-' if cents < 0 else ''}{money(abs(cents))}"


def outcome(report: Report) -> str:
    """Whether the drawer agrees, and if not by how much it is short or over."""
    if report.difference is None:
        return "The drawer has not been counted."
    checks, cents = report.difference
    if (checks, cents) == (0, 0):
        return "The drawer agrees with what was kept."
    parts = [_side(checks, _checks(abs(checks)))] if checks else []
    if cents:
        same = checks and (checks < 0) == (cents < 0)
        parts.append(money(abs(cents)) if same else _side(cents, money(abs(cents))))
    return f"The drawer is {' and '.join(parts)}."


def _checks(number: int) -> str:
    return f"{number} check{'' if abs(number) == 1 else 's'}"


def _side(difference: int, amount: str) -> str:
    return f"{'short' if difference < 0 else 'over'} by {amount}"


def certainty(report: Report) -> str:
    """How far the explanation can be trusted; empty when there is nothing to explain."""
    found = report.explanation
    if found is None or found.sets == ((),):
        return ""
    if found.sets and report.lines is not None:
        return "Found by holding the list of counted checks against what was recorded."
    if found.is_only:
        return "One explanation fits to the cent, and no other as short does."
    if len(found.sets) == 1:
        return "This explanation fits to the cent; the search was stopped before it could rule out others."
    if found.sets and found.is_complete and len(found.sets) <= FEW:
        return f"{len(found.sets)} explanations fit to the cent: look for the checks named before choosing one."
    if found.sets:
        return f"So many explanations fit that none is proved, {FEW} of them here: count by a list of the checks."
    nine = report.difference is not None and report.difference[1] % 9 == 0 and report.difference[1] != 0
    hint = " The difference is a multiple of nine, as exchanged digits leave it." if nine else ""
    if found.is_complete:
        return f"No explanation fits: count again.{hint}"
    return f"No explanation was found before the search was stopped: list the checks one by one.{hint}"


def explanations(report: Report) -> tuple[tuple[str, ...], ...]:
    """The first few explanations, each as its sentences."""
    found = report.explanation
    return tuple(tuple(map(sentence, slips)) for slips in found.sets[:FEW] if slips) if found else ()
