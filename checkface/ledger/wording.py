"""The sentences about a drawer: what slipped with which check, what stands already, what is not as recorded."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, datetime
from typing import Final

from checkface.amounts import money
from checkface.ledger.agreement import Agreement, Break, Checked, Kept
from checkface.ledger.entries import Done, Standing
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


#: What to do with the paper of a check that was recorded at this till before, by what was done then.
_HERE: Final[dict[Done, str]] = {
    "kept": "Put it in the drawer.",
    "converted": "Void it and hand it back.",
    "returned": "Hand it back.",
}
#: The same where it was recorded at another till.
_ELSEWHERE: Final[dict[Done, str]] = {
    "kept": "It belongs in the drawer of {place}: do not hand it back, call the manager.",
    "converted": "It was paid by an electronic debit: do not take it, hand it back.",
    "returned": "Hand it back.",
}
NOT_KNOWN_AGAIN: Final = "Cannot be known again: not all of its numbers were read"


def stands(before: Standing, *, till: str, at: datetime) -> str:
    """What the clerk at *till* is told of a check that was recorded before, and what to do with the paper."""
    when = clock(before.at) if before.at.date() == at.date() else moment(before.at)
    place = _place(before.store, before.lane)
    if before.till == till:
        return f"Already recorded at {place}, {when}: {before.done}. {_HERE[before.done]}"
    where = f"{f' at {place}' if before.till else ''}, {when}{f', by {before.employee}' if before.employee else ''}"
    do = _ELSEWHERE[before.done].format(place=place)
    return f"Not recorded: already recorded{where}: {before.done}. {do}"


def clock(at: datetime) -> str:
    """``9:43 pm``."""
    return f"{at.hour % 12 or 12}:{at:%M} {'am' if at.hour < 12 else 'pm'}"


def moment(at: datetime) -> str:
    """``11/24/2026 9:43 pm``."""
    return f"{at:%m/%d/%Y} {clock(at)}"


def seals(found: Agreement) -> tuple[str, ...]:
    """Whether a till is as it was recorded, and what else its entries tell; the first sentence is for the sheet."""
    said = [_entries(found)] if not found.breaks else [f"ALTERED {_first(found.breaks)} Call the manager."]
    if found.first <= found.unsealed:
        until = min(found.last, found.unsealed)
        said.append(f"Entries up to {until} are older than their seals: a change before that cannot be told.")
    said += (
        f"The clock was set back before entry {back.number}: from {moment(back.was)} to {moment(back.became)}."
        for back in found.set_back
    )
    return tuple(said)


def checked(found: Checked) -> Iterator[str]:
    """What came of holding the whole ledger against its seals: lines for each lane, then one for each till altered."""
    for lane in found.lanes:
        place = _capital(_place(lane.store, lane.lane))
        told = seals(lane.agreement)
        yield from (f"{place}: {said}" for said in (told[1:] if lane.agreement.breaks else told))
        for first, last, day in lane.purged:
            which = f"entry {first} was" if first == last else f"entries {first} to {last} were"
            yield f"{place}: {which} purged, as older than {_day(day)}."
    yield from altered(found)


def altered(found: Checked) -> Iterator[str]:
    """One sentence for each till that is not as it was recorded."""
    for lane in found.lanes:
        yield from _altered(lane.agreement.breaks, _capital(_place(lane.store, lane.lane)), found.tills)
    yield from _altered(found.breaks, "The ledger", found.tills)


def _altered(breaks: Iterable[Break], place: str, tills: Mapping[str, Kept]) -> Iterator[str]:
    """One sentence for each till of *breaks*."""
    by_till: dict[str | None, list[Break]] = {}
    for each in breaks:
        by_till.setdefault(each.till, []).append(each)
    for till, its in by_till.items():
        kept = tills.get(till or "")
        where = _capital(f"{_place(kept.store, kept.lane)}, till of {_day(kept.day)}") if kept else place
        yield f"{where}: ALTERED {_first(its)}"


def _first(breaks: Iterable[Break]) -> str:
    """The first of *breaks* and how many there are besides."""
    first, *rest = breaks
    where = f"from entry {first.number} on" if first.number is not None else "where no entry stands"
    at = f" ({moment(first.at)})" if first.at else ""
    more = f" {len(rest)} more place{'' if len(rest) == 1 else 's'}." if rest else ""
    return f"{where}{at}: {first.said}.{more}"


def _entries(found: Agreement) -> str:
    if found.last < found.first:
        return "Nothing is recorded."
    which = f"Entries {found.first} to {found.last} are as they were"
    if found.first == found.last:
        which = f"Entry {found.first} is as it was"
    return f"{which} recorded; the last seal is {found.seal}."


def _place(store: str | None, lane: str | None) -> str:
    if lane is None:
        return "no till"
    return f"lane {lane}{f' of store {store}' if store else ''}"


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def _day(text: str) -> str:
    try:
        return f"{date.fromisoformat(text):%m/%d/%Y}"
    except ValueError:
        return "no day"  # somebody wrote something else there, which the seals tell
