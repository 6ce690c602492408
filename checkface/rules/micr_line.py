"""The magnetic-ink line as a whole: was it read, by what, in which form, and is anything in it open.

What the single fields mean is asked in :mod:`checkface.rules.micr_marks` and :mod:`checkface.rules.routing`.
"""

from __future__ import annotations

from functools import partial

from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.micr import MicrLine
from checkface.reading import BY_HAND
from checkface.rules.registry import NOT_APPLICABLE, Answer, Case, Hit, at, rule
from checkface.span import Fault
from checkface.tender import Reading, State

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
def micr_not_read(micr: Reading, line_or_fault: MicrLine | Fault | None) -> Answer:
    """No magnetic-ink line was read.

    What it asks: Did the reader give a line at all?
    Why it matters: Without the line nobody knows the bank or the account. A check copied on an office printer has
        toner where the ink should be, and the reader finds nothing.
    Example: The check went through twice and the reader gave no character.
    What to do: Clean the check and the reader and pass it again, face to the head. If nothing comes, a manager looks at
        the paper: the line should be dull, sharp and at the lower edge.
    """
    if micr.state is State.TEXT and not (isinstance(line_or_fault, Fault) and line_or_fault.kind == "micr-blank"):
        return None
    return Hit(_SILENT.get(micr.state, "The reader found no bottom line."), (at("micr"),))


_SILENT = {
    State.ABSENT: "The check has not gone through the reader.",
    State.ILLEGIBLE: "The reader could not make out the bottom line.",
}


@_rule("micr-malformed", Effect.REFER, by="x9-100-160", remedy=Remedy.REREAD)
def micr_malformed(line_or_fault: MicrLine | Fault) -> Answer:
    """The line does not have the form of a check's line.

    What it asks: Do the fields stand in order, nine digits between two transit symbols, an On-Us symbol behind the
        account, nothing left over?
    Why it matters: Only the symbols tell routing number, account and serial apart. Where one is lost or doubled, the
        debit may go to somebody else's account.
    Example: Eight digits between the transit symbols.
    What to do: Pass the check again. If the line comes out the same, a manager compares it with the paper.
    """
    faults = (line_or_fault,) if isinstance(line_or_fault, Fault) else line_or_fault.faults
    return tuple(_hit(fault) for fault in faults if fault.kind not in _ELSEWHERE) or None


def _hit(fault: Fault) -> Hit:
    after = f" after {fault.after}" if fault.after else ""
    said = f"The line should have {fault.expected}{after}, and has {fault.read}."
    return Hit(_SAID.get(fault.kind, said), (at("micr", fault.span),))


_SAID = {
    "micr-auxiliary-malformed": "Left of the routing number stands neither an auxiliary field nor one processing code.",
    "micr-account-malformed": "A dash of the account number stands beside no digit.",
    "micr-left-over": "More characters stand behind the amount.",
}


@_rule("micr-notation-undecided", Effect.REFER, by="x9-100-160", remedy=Remedy.REREAD)
def micr_notation_undecided(line_or_fault: MicrLine | Fault) -> Answer:
    """The line can be read in more than one notation, and the readings differ.

    What it asks: Do the letters and marks that stand for the four symbols have one meaning only?
    Why it matters: Readers write the symbols in many ways. One writes A where another writes T, so the same text can
        name two banks or two accounts.
    Example: A line written with A and D, each of which is transit in one notation and something else in another.
    What to do: Have the till say which notation its reader writes; until then a manager decides.
    """
    if isinstance(line_or_fault, MicrLine) or line_or_fault.kind != "micr-notation-undecided":
        return None
    return Hit(
        f"The reader's notation of the line is not clear: {line_or_fault.read}.", (at("micr", line_or_fault.span),)
    )


@_rule("micr-unread-character", Effect.KEEP, by="nacha-machine-read x9-100-160", remedy=Remedy.REREAD)
def micr_unread_character(line: MicrLine) -> Answer:
    """A character of the line was not read.

    What it asks: Did the reader name every character?
    Why it matters: One missing digit makes an account unknown, and a conversion must rest on a line that a machine has
        read. One missing digit of the routing number can be computed from the others; two cannot, and then the bank is
        unknown too. An unread processing code may be that of a returned check.
    Example: The reader gives ? for the fourth digit of the account.
    What to do: Pass the check again. If a mark stays, keep the check on paper; if the bank is unknown, call the
        manager. Never key the missing digit in order to convert.
    """
    if not line.unread:
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
    where = " and ".join(places) if len(places) < 4 else "several fields"
    fits = f"only {line.routing_repaired} fits" if line.routing_repaired else ""
    labels = [
        at("micr", span, fits if name == "routing" else "", primary=n == 0) for n, (name, span) in enumerate(open_)
    ]
    message = f"The reader missed a character in {where}" + (f"; {fits}." if fits else ".")
    return message, tuple(labels) or (at("micr"),)


@_rule(
    "micr-foreign", Effect.DECLINE, by="house-policy nacha-ineligible", remedy=Remedy.NEW_CHECK, floor=Effect.KEEP,
)  # fmt: skip
def micr_foreign(line_or_fault: MicrLine | Fault) -> Answer:
    """The line is that of a check drawn outside the United States.

    What it asks: Is the transit field of the form used here, in the font used here?
    Why it matters: Canada, India, Britain and others print the same font with other fields, and much of the world
        another font. No routing number stands on such a line, and what stands there cannot be made into one.
    Example: 12345-678 between the transit symbols, a Canadian branch and institution.
    What to do: Hand it back, or keep it for collection where the policy allows that. It is never converted.
    """
    if isinstance(line_or_fault, Fault):
        if line_or_fault.kind != "micr-cmc7":
            return None
        return Hit("The line is printed in CMC-7, a font of other countries.", (at("micr", line_or_fault.span),))
    if line_or_fault.country == "US":
        return None
    whose = "a Canadian check" if line_or_fault.country == "CA" else "a check of another country"
    return Hit(f"The bottom line is that of {whose}.", (at("micr", line_or_fault.spans.get("routing")),))


@_rule("micr-layout-ambiguous", Effect.KEEP, by="x9-100-160 nacha-serial", remedy=Remedy.REREAD)
def micr_layout_ambiguous(line: MicrLine) -> Answer:
    """The line does not say which digits are the account and which the serial.

    What it asks: Is there one way only to lay out the field right of the transit symbols?
    Why it matters: Each bank orders that field as it likes. Where two orders fit, one debits a stranger. The number
        printed at the upper right usually decides.
    Example: A short group, a dash and a long group: a serial before the account, or one account with a dash in it.
    What to do: Give the printed number as well. If the line stays open, keep the check.
    """
    if not line.ambiguities:
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
    fields = dict.fromkeys(doubt.field for doubt in doubts)
    labels = tuple(at("micr", line.spans.get(f), _FIELDS[f], primary=n == 0) for n, f in enumerate(fields))
    return Hit(f"The fields of the line are not clear: {doubts[0].reason}.", labels)


@_rule("micr-field-too-long", Effect.REFER, by="x9-100-160", remedy=Remedy.REREAD)
def micr_field_too_long(line: MicrLine) -> Answer:
    """A field of the line has more characters than its place holds.

    What it asks: Do the On-Us field and the auxiliary field keep within their positions?
    Why it matters: The places are fixed. What does not fit was misread, joined from two fields, or never printed for a
        bank.
    Example: Twenty-four digits between the transit symbol and the end.
    What to do: Pass the check again; if the field stays so long, a manager looks at the paper.
    """
    whole = (0, len(line.raw))  # the length of the line itself is asked by micr-too-long-for-paper
    return tuple(_hit(f) for f in line.faults if f.kind == "micr-field-too-long" and f.span != whole) or None


@_rule("micr-too-long-for-paper", Effect.REFER, by="x9-100-160", remedy=Remedy.REREAD)
def micr_too_long_for_paper(micr_text: str) -> Answer:
    """The line has more characters than the longest check has room for.

    What it asks: Blanks left out, are there at most 65 characters?
    Why it matters: At eight characters to the inch the longest business check has 65 positions. A longer text is two
        lines run together or no line at all. The width of the single paper is not known here, so a shorter line may
        still be too long for it.
    Example: Two checks went through the reader together.
    What to do: Pass the check again, alone.
    """
    if len(micr_text) <= POSITIONS or (characters := len("".join(micr_text.split()))) <= POSITIONS:
        return None
    return Hit(f"The line has {characters} characters; the longest check has room for {POSITIONS}.", (at("micr"),))


@rule("micr-keyed", Effect.KEEP, by="nacha-machine-read", remedy=Remedy.REREAD)
def micr_keyed(micr_by: str, micr: Reading) -> Answer:
    """The line was keyed or corrected by hand.

    What it asks: Does the line stand exactly as a machine read it?
    Why it matters: At the point of purchase the network demands that a machine capture the line; the amount may be
        keyed, the line may not. Accounts of the rule differ on corrections, so the strict reading holds here.
    Example: The reader lost a digit and the clerk typed it in.
    What to do: Pass the check through the reader again and leave the line alone, or keep the check.
    """
    # The till says how lines are captured here, the reading itself may say how this one was.
    if micr_by != "reader":
        return Hit(f"The bottom line was {micr_by} by hand.", (at("counter.micr_by"),))
    if micr.by is None or micr.by.strip().lower() not in BY_HAND:
        return None
    return Hit("The bottom line is marked as entered by hand.", (at("micr"),))
