"""Who signed, who is paid, and whether the paper is whole."""

from __future__ import annotations

import re
from functools import lru_cache, partial

from checkface import instruments
from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.kinds import Kind, where
from checkface.reading import NEEDS
from checkface.rules.kinds import PAID_TO_CUSTOMER
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule
from checkface.rules.terms import laws
from checkface.span import Fault
from checkface.tender import Mark, State

#: How alike two spellings of the house's name must be (difflib ratio); from common practice, checked in tests.
_ALIKE = 0.85


_LEGENDS = NEEDS["legends"]

#: Kinds whose issuer is named elsewhere: nothing has to stand at the upper left.
_NO_DRAWER = where(lambda row: not row.drawer)


#: Without any of these no second name can follow: most payees are settled by one look.
_JOINING = frozenset({"and", "or", "y", "o", "e", "u"})
_JOINTS = frozenset("&+/\n\r;,")


#: What may stand beside the house's name without making it another's.
_FORMS = frozenset(
    {"the", "inc", "llc", "co", "corp", "company", "ltd", "store", "stores", "no", "of", "order", "pay", "to"}
)


#: What may begin a place behind the house's name: Example Grocery of Springfield.
_PLACES = ("of ", "at ", "in ")


@lru_cache(maxsize=4096)
def _plain(name: str) -> str:
    return " ".join(re.findall(r"\w+", name.casefold().replace("'", "").replace("\u2019", "")))


def _is_house(payee: str, names: tuple[str, ...]) -> bool:
    from difflib import SequenceMatcher  # wanted only by a house that has given its names

    read = _plain(payee)
    words = {word for word in read.split() if not word.isdigit()}  # a store's number names no other house
    for name in map(_plain, names):
        known = set(name.split())
        if read.startswith(f"{name} ") and read.removeprefix(f"{name} ").startswith(_PLACES):
            return True
        if known <= words <= known | _FORMS or (words and words <= known and len(read) >= 4):
            return True
        if SequenceMatcher(None, read[:200], name[:200]).ratio() >= _ALIKE:
            return True
    return False


def _filler(text: str) -> bool:
    """Whether strokes, dots or crosses fill the line and nothing names anybody."""
    if text[:1].isalpha() and text[0] not in "xX":
        return False
    return set(filter(str.isalnum, text)) <= {"x", "X"}


def _is_customers_own(case: Case) -> bool:
    """Whether the clerk and the paper agree that this is a kind made out to the customer, who hands it over."""
    # An employer's check is a business check by its drawer.
    return case.read.counter.declared_kind in PAID_TO_CUSTOMER and case.read.kinds <= PAID_TO_CUSTOMER | {Kind.BUSINESS}


def _third_party(case: Case) -> bool:
    """Whether the payee's line names somebody, and none of the names is the house's."""
    text = case.read.face.payee.text
    named = instruments.payees(text)
    if isinstance(named, Fault) or _filler(text) or _is_house(text, case.policy.payee.names):
        return False
    return not named.bearer and not any(_is_house(payee.name, case.policy.payee.names) for payee in named.names)


@rule("signature-missing", Effect.DECLINE, by="ucc-3-401 common-practice", needs="signature", remedy=Remedy.SIGN)
def signature_missing(case: Case) -> Answer:
    """No signature of the drawer.

    What it asks: Was a signature seen on the drawer's line?
    Why it matters: Nobody is liable on a check without a signature, and an unsigned check is not a source for a debit.
    Example: The lines are all filled in and the one at the lower right is empty.
    What to do: If the drawer stands at the counter, ask for the signature and look again.
    """
    if case.read.face.signature is Mark.YES:
        return None
    if case.read.face.signature is Mark.ILLEGIBLE:
        return Hit(
            "Expected a signature, could not make out whether there is one.",
            (at("signature"),),
            Effect.REFER,
            Remedy.REREAD,
        )
    return Hit("Expected a signature, read none.", (at("signature"),))


@rule("payee-blank", Effect.NOTE, by="ucc-3-115 common-practice", remedy=Remedy.COMPLETE)
def payee_blank(case: Case) -> Answer:
    """The payee's line is blank or cannot be read.

    What it asks: Was the payee's line looked at and found empty?
    Why it matters: A blank may be completed as the signer meant; until it is, whoever finds the check can fill it in.
    Example: The customer signed and left the printer to fill in the rest.
    What to do: Print the house's name, or ask the customer to write it.
    """
    state = case.read.face.payee.state
    if state is State.ABSENT:
        return NOT_APPLICABLE
    if state is State.TEXT:
        if not _filler(case.read.face.payee.text):
            return None
        return Hit("Expected a payee, read only strokes that fill the line.", (_whole(case, "payee"),))
    if state is State.BLANK:
        return Hit("Expected a payee, read a blank line.", (at("payee"),))
    return Hit("Expected a payee, could not read it.", (at("payee"),), Effect.REFER, Remedy.REREAD)


@rule("payee-not-house", Effect.DECLINE, by="house-policy", needs="payee", remedy=Remedy.NEW_CHECK)
def payee_not_house(case: Case) -> Answer:
    """The check is made out to somebody else.

    What it asks: Is the payee one of the names under which the house takes checks? A payroll, Treasury or government
        check, declared so and nothing speaking for another kind, is made out to the customer and is not asked.
    Why it matters: A third party's check is worth only what an endorsement makes of it, and the endorser may not be
        the payee.
    Example: Payable to a neighbour, tendered for groceries.
    What to do: Hand it back, ask for a check made out to the house.
    """
    if not case.policy.payee.names or _is_customers_own(case):
        return NOT_APPLICABLE
    if not _third_party(case):
        return None
    return Hit("Expected the house as payee, read another name.", (_whole(case, "payee"),))


@rule(
    "third-party-check",
    Effect.KEEP,
    by="nacha-ineligible ucc-3-109",
    needs="payee",
    remedy=Remedy.NEW_CHECK,
    floor=Effect.KEEP,
)
def third_party_check(case: Case) -> Answer:
    """The payee is not the merchant.

    What it asks: Is the merchant itself the payee?
    Why it matters: The customer can authorize a debit to the customer's own account only for a check paid to the
        merchant.
    Example: A check from a relative to the customer, endorsed over to the store.
    What to do: Never convert it; the house decides whether it is taken at all.
    """
    if not case.policy.payee.names:
        return UNREAD  # nobody has said who the merchant is
    if not _third_party(case):
        return None
    return Hit("The payee is a third party: never convert.", (_whole(case, "payee"),))


@rule("several-payees", Effect.NOTE, by="ucc-3-110 ny-ucc-3-116", needs="payee")
def several_payees(case: Case) -> Answer:
    """More than one payee.

    What it asks: Does the payee's line name more than one?
    Why it matters: Joined by "and", all must endorse; joined by "or", any one may. Joined otherwise, any one may,
        except under New York's older law, by which all must.
    Example: Payable to the store and a landlord.
    What to do: See that everyone who must endorse has done so.
    """
    text = case.read.face.payee.text
    words = text.split()
    if ("".join(words).isalpha() or _JOINTS.isdisjoint(text)) and _JOINING.isdisjoint(map(str.lower, words)):
        return None
    named = instruments.payees(text)
    if isinstance(named, Fault) or len(named.names) < 2:
        return None
    every = named.joined == "and" or (named.ambiguous and "NY" in laws(case))
    who = "all of them must" if every else "any one of them may"
    return Hit(f"Made out to {len(named.names)} payees: {who} endorse.", (_whole(case, "payee"),))


@rule("serial-differs", Effect.REFER, by="x9-100-160", needs="serial micr", remedy=Remedy.REREAD)
def serial_differs(case: Case) -> Answer:
    """The printed number is not the number on the magnetic line.

    What it asks: Do the number at the upper right and the serial on the line agree, leading zeros apart?
    Why it matters: They are printed in one run. A difference is a misread, or a face and a line that were not made
        together.
    Example: 1043 is printed, and the line reads 1048.
    What to do: Read the line again; if they still differ, call the manager.
    """
    line = case.read.line
    if line is None or line.serial is None or case.read.serial is None:
        return NOT_APPLICABLE
    if line.serial.lstrip("0") == case.read.serial.lstrip("0"):
        return None
    labels = (
        at("serial", (0, len(case.read.face.serial.text)), "printed"),
        at("micr", line.spans.get("serial"), "on the line", primary=False),
    )
    return Hit(f"Expected the serial {line.serial} of the line, read {case.read.serial}.", labels)


@rule("serial-not-printed", Effect.KEEP, by="nacha-serial", floor=Effect.KEEP)
def serial_not_printed(case: Case) -> Answer:
    """No check number is printed on the face.

    What it asks: Was the place of the printed number looked at and found empty, or without a number?
    Why it matters: A source document for conversion carries a pre-printed serial; without one, the item cannot be
        told from the next of the same account.
    Example: A starter check, its number to be written in by hand.
    What to do: Keep it.
    """
    match case.read.face.serial.state:
        case State.TEXT:
            if case.read.serial is not None:
                return None
            return Hit("Expected a printed check number, read no digits.", (_whole(case, "serial"),))
        case State.BLANK:
            return Hit("Expected a printed check number, read none.", (at("serial"),))
        case State.ILLEGIBLE:
            message = "Expected a printed check number, could not read it."
            return Hit(message, (at("serial"),), None, Remedy.REREAD)
        case _:
            return UNREAD


@rule("drawer-not-printed", Effect.REFER, by="common-practice", remedy=Remedy.MANAGER)
def drawer_not_printed(case: Case) -> Answer:
    """No drawer's name is printed on the face.

    What it asks: Was the upper left looked at and found empty?
    Why it matters: Without a printed name nothing on the paper ties the account to the person who signs.
    Example: A starter check from a new account.
    What to do: Call the manager; compare name and address with the identification.
    """
    state = case.read.face.drawer.state
    if state is State.TEXT:
        return None
    # The wording or the line must show such a kind: the clerk's word alone does not excuse a missing name.
    # A clerk who declares a kind that has a drawer contradicts it.
    if case.read.kind.kind in _NO_DRAWER and case.read.kinds <= _NO_DRAWER:
        return NOT_APPLICABLE
    if state is State.ABSENT:
        return UNREAD
    read = "none" if state is State.BLANK else "something illegible"
    return Hit(f"Expected a printed drawer's name, read {read}.", (at("drawer"),))


def no_legend(case: Case) -> Outcome | None:
    """Where somebody looked and no wording of any family stands there, no rule on wording has anything to find."""
    return None if case.read.kind.legends or legends_seen(case) is UNREAD else Outcome.HELD


_rule = partial(rule, gate=no_legend)


@_rule("legend-void", Effect.DECLINE, by="nacha-single-use common-practice", remedy=Remedy.NEW_CHECK)
def legend_void(case: Case) -> Answer:
    """The face says void, specimen, copy or not negotiable.

    What it asks: Does a legend cancel the paper, as opposed to limiting it?
    Why it matters: A voided check has been used, or was never meant to be.
    Example: VOID across the face in letters that a copier brought out.
    What to do: Hand it back.
    """
    marks = case.read.legends("void", "copy", "non-negotiable")
    if not marks:
        return legends_seen(case)
    return Hit("Expected no legend that cancels the check, read one.", marked(marks))


@_rule("already-converted", Effect.DECLINE, by="nacha-single-use", remedy=Remedy.NEW_CHECK)
def already_converted(case: Case) -> Answer:
    """The paper has been used for an electronic debit before.

    What it asks: Does a print or a stamp say that this check was already turned into a debit?
    Why it matters: A check converted once has been paid; taken again it is paid twice.
    Example: A line on the front says that the check was processed electronically.
    What to do: Hand it back.
    """
    marks = case.read.legends("converted")
    if not marks:
        return legends_seen(case)
    return Hit("Expected an unused check, read a print of an earlier electronic debit.", marked(marks))


@_rule("legend-illegible", Effect.REFER, by="common-practice", remedy=Remedy.REREAD)
def legend_illegible(case: Case) -> Answer:
    """Something is printed or stamped on the face that could not be read.

    What it asks: Were there legends that nobody could make out?
    Why it matters: The wording that could not be read may void the check, limit it, or name its kind; the rules that
        ask for that could not run.
    Example: A stamp across the amount, smeared.
    What to do: Look again under better light; otherwise call the manager.
    """
    if case.read.face.legends.state is not State.ILLEGIBLE:
        return None
    return Hit("Expected legends that can be read, could not read them.", (at("legends"),))


@_rule("conditional-wording", Effect.REFER, by="ucc-3-106 ucc-3-311", remedy=Remedy.MANAGER)
def conditional_wording(case: Case) -> Answer:
    """Wording that sets a condition or settles a debt.

    What it asks: Does the face say "paid in full", "subject to" or the like?
    Why it matters: Taking a check in full satisfaction of a disputed claim may end the claim, and a conditional order
        is not a negotiable instrument.
    Example: "In full settlement of account" above the signature.
    What to do: Call the manager; do not strike the words out.
    """
    if not (marks := case.read.legends("conditional")):
        return legends_seen(case)
    return Hit("Expected an unconditional order, read wording that sets a condition.", marked(marks))


@rule("already-endorsed", Effect.DECLINE, by="nacha-single-use", remedy=Remedy.NEW_CHECK)
def already_endorsed(case: Case) -> Answer:
    """The back carries an endorsement already.

    What it asks: Was the back looked at and found written on or stamped?
    Why it matters: An endorsed check has passed through other hands, or a bank's, and may not be the tenderer's to
        give.
    Example: A bank's stamp on the back, a week old.
    What to do: Hand it back.
    """
    match case.read.face.endorsements.state:
        case State.TEXT:
            return Hit("Expected no endorsement, read one.", (_whole(case, "endorsements"),))
        case State.BLANK:
            return None
        case State.ILLEGIBLE:
            message = "Expected no endorsement, could not read what stands there."
            return Hit(message, (at("endorsements"),), Effect.REFER, Remedy.REREAD)
        case _:
            return UNREAD


@rule("altered", Effect.REFER, by="ucc-3-302 ucc-3-407", needs="alterations", remedy=Remedy.MANAGER)
def altered(case: Case) -> Answer:
    """Something on the face was changed.

    What it asks: Did the clerk see an erasure, an overwriting or another ink?
    Why it matters: One who takes a check with a visible alteration loses the standing of a holder in due course, and an
        alteration can set the drawer free.
    Example: A 1 before the amount, in a darker blue than the rest.
    What to do: Call the manager; the drawer's initials beside the change do not settle it.
    """
    match case.read.face.alterations:
        case Mark.NO:
            return None
        case Mark.ILLEGIBLE:
            message = "Expected an unaltered face, could not make out whether it is."
            return Hit(message, (at("alterations"),), None, Remedy.REREAD)
        case _:
            return Hit("Expected an unaltered face, an alteration was seen.", (at("alterations"),))


def legends_seen(case: Case) -> Answer:
    """Held where the legends were looked at; such wording may stand on any line, but its absence is seen only there."""
    return None if (case.read.known | case.read.blank) & _LEGENDS else UNREAD


def marked(marks: tuple[instruments.Legend, ...]) -> tuple[Label, ...]:
    return tuple(at(mark.reading, mark.span, "", primary=index == 0) for index, mark in enumerate(marks))


def _whole(case: Case, name: str) -> Label:
    return at(name, (0, len(getattr(case.read.face, name).text)))
