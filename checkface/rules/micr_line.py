"""The magnetic-ink line as a whole: was it read, by what, in which form, and is anything in it open.

What the single fields mean is asked in :mod:`checkface.rules.micr_marks` and :mod:`checkface.rules.routing`.
"""

from __future__ import annotations

from functools import partial

from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.micr import MicrLine
from checkface.reading import BY_HAND
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.span import Fault
from checkface.tender import State

#: Positions of the longest check on paper: 8 3/4 inches at eight characters an inch (ASC X9 TR 100-2013).
POSITIONS = 65

#: Routing numbers of federal items begin so. Their lines carry no account, and where the serial of a Treasury check
#: stands is not published (Treasury Financial Manual).
FEDERAL = "000"

_FIELDS = {
    "routing": "the routing number", "auxiliary": "the auxiliary field", "epc": "the processing code",
    "account": "the account number", "serial": "the serial number", "transaction_code": "the transaction code",
    "amount": "the amount",
}  # fmt: skip

#: Faults of the reader that a rule of their own speaks of.
_ELSEWHERE = frozenset(
    {
        "micr-blank",
        "micr-cmc7",
        "micr-notation-undecided",
        "micr-too-long",
        "micr-field-too-long",
        "micr-transit-unread",
    }
)


def _in_order(case: Case) -> Outcome | None:
    """A line of this country, all of it read, in its place and in one way: nothing is left to ask of its form."""
    line = case.read.line
    if line is None or line.unread or line.faults or line.ambiguities:
        return None
    return Outcome.HELD if line.country == "US" and len(line.raw) <= POSITIONS else None


_rule = partial(rule, gate=_in_order)


@_rule("micr-not-read", Effect.REFER, by="nacha-machine-read common-practice", remedy=Remedy.REREAD, floor=Effect.KEEP)
def micr_not_read(case: Case) -> Answer:
    """No magnetic-ink line was read.

    What it asks: Did the reader give a line at all?
    Why it matters: Without the line nobody knows the bank or the account. A check copied on an office printer
        has toner where the ink should be and reads as nothing, so silence of the reader is itself a warning.
    Example: The check went through twice and the reader gave no character.
    What to do: Clean the check and the reader and pass it again, face to the head. If it stays silent, a
        manager looks at the paper: the line should be dull, sharp and at the lower edge.
    """
    if case.read.micr is not None:
        return (
            None if not isinstance(case.read.micr, Fault) or case.read.micr.kind != "micr-blank" else _silent("nothing")
        )
    match case.read.face.micr.state:
        case State.ABSENT:
            return _silent("none: nobody passed the check through the reader")
        case State.ILLEGIBLE:
            return _silent("one that could not be made out")
        case _:
            return _silent("nothing")


def _silent(read: str) -> Hit:
    return Hit(f"Expected a magnetic-ink line, read {read}.", (at("micr"),))


@_rule("micr-malformed", Effect.REFER, by="x9-100-160", needs="micr_text", remedy=Remedy.REREAD)
def micr_malformed(case: Case) -> Answer:
    """The line does not have the form of a check's line.

    What it asks: Do the fields stand in order, nine digits between two transit symbols, an On-Us symbol
        behind the account, nothing left over?
    Why it matters: The symbols are all that tells routing number, account and serial apart. Where one is lost
        or doubled, a program that guesses debits somebody else.
    Example: Eight digits between the transit symbols.
    What to do: Pass the check again. If the line comes out the same, a manager compares it with the paper.
    """
    line = case.read.micr
    if isinstance(line, MicrLine):
        if not line.faults:
            return None
        return tuple(_hit(fault) for fault in line.faults if fault.kind not in _ELSEWHERE) or None
    if line is None:
        return UNREAD
    return None if line.kind in _ELSEWHERE else _hit(line)


def _hit(fault: Fault) -> Hit:
    return Hit(fault.message, (at("micr", fault.span),))


@_rule("micr-notation-undecided", Effect.REFER, by="x9-100-160", needs="micr_text", remedy=Remedy.REREAD)
def micr_notation_undecided(case: Case) -> Answer:
    """The line can be read in more than one notation, and the readings differ.

    What it asks: Do the letters and marks that stand for the four symbols have one meaning only?
    Why it matters: Readers write the symbols in many ways. One writes A where another writes T, so the same
        text can name two banks or two accounts.
    Example: A line written with A and D, each of which is transit in one notation and something else in
        another.
    What to do: Have the till say which notation its reader writes; until then a manager decides.
    """
    line = case.read.micr
    if isinstance(line, MicrLine):
        return None
    return _hit(line) if line is not None and line.kind == "micr-notation-undecided" else None


@_rule("micr-unread-character", Effect.KEEP, by="nacha-machine-read x9-100-160", needs="micr", remedy=Remedy.REREAD)
def micr_unread_character(case: Case) -> Answer:
    """A character of the line was not read.

    What it asks: Did the reader name every character?
    Why it matters: One missing digit makes an account unknown, and a conversion must rest on a line that a
        machine has read. One missing digit of the routing number can be computed from the others; two cannot,
        and then the bank is unknown too. An unread processing code may be that of a returned check.
    Example: The reader gives ? for the fourth digit of the account.
    What to do: Pass the check again. If a mark stays, keep the check on paper; if the bank is unknown, call
        the manager. Never key the missing digit in order to convert.
    """
    line = case.read.micr
    if not isinstance(line, MicrLine) or not line.unread:
        return None
    known = line.routing or line.routing_repaired or line.routing_old_form
    lost = (
        known is None
        or any(doubt.field == "country" for doubt in line.ambiguities)
        or (line.epc is None and "epc" in line.spans)  # an unread code may be that of a returned item
    )
    return Hit(*_unread(line), Effect.REFER if lost else None)


def _unread(line: MicrLine) -> tuple[str, tuple[Label, ...]]:
    """The message, and a label on each field that is open because a character in it was not read."""
    values = {"amount": line.amount_cents}
    open_ = [(name, span) for name, span in line.spans.items() if values.get(name, getattr(line, name, None)) is None]
    places = [_FIELDS[name] for name, _ in open_] or ["a place between the fields"]
    fits = f"{line.routing_repaired} is the one routing number that fits" if line.routing_repaired else ""
    message = f"Expected every character of the line, read a mark in {' and '.join(places)}"
    labels = [
        at("micr", span, fits if name == "routing" else "", primary=n == 0) for n, (name, span) in enumerate(open_)
    ]
    return message + (f"; {fits}." if fits else "."), tuple(labels) or (at("micr"),)


@_rule(
    "micr-foreign", Effect.DECLINE, by="house-policy nacha-ineligible", needs="micr_text", remedy=Remedy.NEW_CHECK,
    floor=Effect.KEEP,
)  # fmt: skip
def micr_foreign(case: Case) -> Answer:
    """The line is that of a check drawn outside the United States.

    What it asks: Is the transit field of the form used here, in the font used here?
    Why it matters: Canada, India, Britain and others print the same font with other fields, and much of the
        world another font altogether. No routing number stands on such a line, and padding what does stand
        there makes one up.
    Example: 12345-678 between the transit symbols, a Canadian branch and institution.
    What to do: Hand it back, or keep it for collection where the policy allows that. It is never converted.
    """
    line = case.read.micr
    if isinstance(line, MicrLine):
        if line.country == "US":
            return None
        read = "one of the Canadian form" if line.country == "CA" else "one of another country's form"
        return Hit(
            f"Expected the line of a United States check, read {read}.", (at("micr", line.spans.get("routing")),)
        )
    if line is None:
        return UNREAD
    return _hit(line) if line.kind == "micr-cmc7" else None


@_rule("micr-layout-ambiguous", Effect.KEEP, by="x9-100-160 nacha-serial", needs="micr", remedy=Remedy.REREAD)
def micr_layout_ambiguous(case: Case) -> Answer:
    """The line does not say which digits are the account and which the serial.

    What it asks: Is there one way only to lay out the field right of the transit symbols?
    Why it matters: Each bank orders that field as it likes. Where two orders fit, one debits a stranger. The
        number printed at the upper right usually decides.
    Example: A short group, a dash and a long group: a serial before the account, or one account with a dash
        in it.
    What to do: Give the printed number as well. If the line stays open, keep the check.
    """
    line = case.read.micr
    if not isinstance(line, MicrLine) or not line.ambiguities:
        return None
    if (line.routing or "").startswith(FEDERAL):
        return NOT_APPLICABLE
    # An open routing number was not read or stands twice, an open country comes with a fault of the transit field, and
    # where the account is known but no serial could be found, micr-no-serial says so.
    known = {
        doubt.reason for doubt in line.ambiguities if line.account and doubt.field == "serial" and not doubt.candidates
    }
    doubts = [d for d in line.ambiguities if d.field not in ("routing", "country") and d.reason not in known]
    if not doubts:
        return None
    reasons = "; ".join(dict.fromkeys(doubt.reason for doubt in doubts))
    fields = dict.fromkeys(doubt.field for doubt in doubts)
    labels = tuple(at("micr", line.spans.get(field), field, primary=n == 0) for n, field in enumerate(fields))
    return Hit(f"Expected one way to lay out the line, read more: {reasons}.", labels)


@_rule("micr-field-too-long", Effect.REFER, by="x9-100-160", needs="micr", remedy=Remedy.REREAD)
def micr_field_too_long(case: Case) -> Answer:
    """A field of the line has more characters than its place holds.

    What it asks: Do the On-Us field and the auxiliary field keep within their positions?
    Why it matters: The places are fixed. What does not fit was misread, joined from two fields, or never
        printed for a bank.
    Example: Twenty-four digits between the transit symbol and the end.
    What to do: Pass the check again; if the field stays so long, a manager looks at the paper.
    """
    line = case.read.micr
    if not isinstance(line, MicrLine) or not line.faults:
        return None
    whole = (0, len(line.raw))  # the length of the line itself is asked by micr-too-long-for-paper
    faults = [fault for fault in line.faults if fault.kind == "micr-field-too-long" and fault.span != whole]
    return tuple(map(_hit, faults)) or None


@_rule("micr-too-long-for-paper", Effect.REFER, by="x9-100-160", needs="micr_text", remedy=Remedy.REREAD)
def micr_too_long_for_paper(case: Case) -> Answer:
    """The line has more characters than the longest check has room for.

    What it asks: Blanks left out, are there at most 65 characters?
    Why it matters: At eight characters to the inch the longest business check has 65 positions. A longer text
        is two lines run together or no line at all. The width of the single paper is not known here, so a
        shorter line may still be too long for it.
    Example: Two checks went through the reader together.
    What to do: Pass the check again, alone.
    """
    text = case.read.face.micr.text
    if len(text) <= POSITIONS or (characters := len("".join(text.split()))) <= POSITIONS:
        return None
    return Hit(f"Expected at most {POSITIONS} characters in the line, read {characters}.", (at("micr"),))


@rule("micr-keyed", Effect.KEEP, by="nacha-machine-read", needs="micr_by", remedy=Remedy.REREAD)
def micr_keyed(case: Case) -> Answer:
    """The line was keyed or corrected by hand.

    What it asks: Does the line stand exactly as a machine read it?
    Why it matters: At the point of purchase the network demands that a machine capture the line; the amount
        may be keyed, the line may not. Accounts of the rule differ on corrections, so the strict reading
        holds here.
    Example: The reader lost a digit and the clerk typed it in.
    What to do: Pass the check through the reader again and leave the line alone, or keep the check.
    """
    # The till says how lines are captured here, the reading itself may say how this one was.
    by, own = case.read.counter.micr_by, case.read.face.micr.by
    if by == "reader" and (own is None or own.strip().lower() not in BY_HAND):
        return None
    if by == "reader":
        return Hit("Expected a line read by a machine, read one that is marked as done by hand.", (at("micr"),))
    read = "one keyed by hand" if by == "keyed" else "one corrected by hand"
    return Hit(f"Expected a line read by a machine, read {read}.", (at("counter.micr_by"),))
