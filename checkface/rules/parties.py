"""Who signed, who is paid, and whether the paper is whole."""

from __future__ import annotations

from functools import partial

from checkface.findings import Effect, Label, Outcome, Remedy
from checkface.instruments import Inference, Legend
from checkface.micr import MicrLine
from checkface.rules.registry import NOT_APPLICABLE, UNREAD, Answer, Case, Hit, at, rule, whole
from checkface.tender import Face, Mark, State


@rule("signature-missing", Effect.DECLINE, by="ucc-3-401 common-practice", remedy=Remedy.SIGN)
def signature_missing(signature: Mark) -> Answer:
    """No signature of the drawer.

    What it asks: Was a signature seen on the drawer's line?
    Why it matters: Nobody is liable on a check without a signature, and an unsigned check is not a source for a debit.
    Example: The lines are all filled in and the one at the lower right is empty.
    What to do: If the drawer stands at the counter, ask for the signature and look again.
    """
    match signature:
        case Mark.YES:
            return None
        case Mark.ILLEGIBLE:
            return Hit("Nobody can make out whether it is signed.", (at("signature"),), Effect.REFER, Remedy.REREAD)
        case _:
            return Hit("Not signed.", (at("signature"),))


@rule("serial-differs", Effect.REFER, by="x9-100-160", remedy=Remedy.REREAD)
def serial_differs(line: MicrLine, serial_text: str, serial: str | None) -> Answer:
    """The printed number is not the number on the magnetic line.

    What it asks: Do the number at the upper right and the serial on the line agree, leading zeros apart?
    Why it matters: They are printed in one run. A difference is a misread, or a face and a line that were not made
        together.
    Example: 1043 is printed, and the line reads 1048.
    What to do: Read the line again; if they still differ, call the manager.
    """
    if line.serial is None or serial is None:
        return NOT_APPLICABLE
    if line.serial.lstrip("0") == serial.lstrip("0"):
        return None
    labels = (
        whole("serial", serial_text)._replace(words="printed"),
        at("micr", line.spans.get("serial"), "on the line", primary=False),
    )
    return Hit(f"The number {serial} is printed, the bottom line says {line.serial}.", labels)


@rule("serial-not-printed", Effect.KEEP, by="nacha-serial", floor=Effect.KEEP)
def serial_not_printed(face: Face, serial: str | None) -> Answer:
    """No check number is printed on the face.

    What it asks: Was the place of the printed number looked at and found empty, or without a number?
    Why it matters: A source document for conversion carries a pre-printed serial; without one, the item cannot be
        told from the next of the same account.
    Example: A starter check, its number to be written in by hand.
    What to do: Keep it.
    """
    match face.serial.state:
        case State.TEXT:
            if serial is not None:
                return None
            return Hit("No digits stand where the check number should be.", (whole("serial", face.serial.text),))
        case State.BLANK:
            return Hit("No check number is printed on it.", (at("serial"),))
        case State.ILLEGIBLE:
            return Hit("The check number cannot be read.", (at("serial"),), None, Remedy.REREAD)
        case _:
            return UNREAD


def no_legend(case: Case) -> Outcome | None:
    """Where somebody looked and no wording of any family stands there, no rule on wording has anything to find."""
    return None if case.read.kind.legends or legends_seen(case.read.face) is UNREAD else Outcome.HELD


_rule = partial(rule, gate=no_legend)


@_rule("legend-void", Effect.DECLINE, by="nacha-single-use common-practice", remedy=Remedy.NEW_CHECK)
def legend_void(inference: Inference, face: Face) -> Answer:
    """The face says void, specimen, copy or not negotiable.

    What it asks: Does a legend cancel the paper, as opposed to limiting it?
    Why it matters: A voided check has been used, or was never meant to be.
    Example: VOID across the face in letters that a copier brought out.
    What to do: Hand it back.
    """
    marks = inference.wording("void", "copy", "non-negotiable")
    if not marks:
        return legends_seen(face)
    return Hit(f"{said(face, marks)} is on it.", marked(marks))


@_rule("already-converted", Effect.DECLINE, by="nacha-single-use", remedy=Remedy.NEW_CHECK)
def already_converted(inference: Inference, face: Face) -> Answer:
    """The paper has been used for an electronic debit before.

    What it asks: Does a print or a stamp say that this check was already turned into a debit?
    Why it matters: A check converted once has been paid; taken again it is paid twice.
    Example: A line on the front says that the check was processed electronically.
    What to do: Hand it back.
    """
    marks = inference.wording("converted")
    if not marks:
        return legends_seen(face)
    return Hit("It has already been turned into an electronic debit.", marked(marks))


@_rule("legend-illegible", Effect.REFER, by="common-practice", remedy=Remedy.REREAD)
def legend_illegible(face: Face) -> Answer:
    """Something is printed or stamped on the face that could not be read.

    What it asks: Were there legends that nobody could make out?
    Why it matters: The wording that could not be read may void the check, limit it, or name its kind; the rules that
        ask for that could not run.
    Example: A stamp across the amount, smeared.
    What to do: Look again under better light; otherwise call the manager.
    """
    if face.legends.state is not State.ILLEGIBLE:
        return None
    return Hit("Something is printed or stamped on it that cannot be read.", (at("legends"),))


@_rule("conditional-wording", Effect.REFER, by="ucc-3-106 ucc-3-311", remedy=Remedy.MANAGER)
def conditional_wording(inference: Inference, face: Face) -> Answer:
    """Wording that sets a condition or settles a debt.

    What it asks: Does the face say "paid in full", "subject to" or the like?
    Why it matters: Taking a check in full satisfaction of a disputed claim may end the claim, and a conditional order
        is not a negotiable instrument.
    Example: "In full settlement of account" above the signature.
    What to do: Call the manager; do not strike the words out.
    """
    if not (marks := inference.wording("conditional")):
        return legends_seen(face)
    return Hit(f"{said(face, marks)} is written on it: that may settle a debt or set a condition.", marked(marks))


@rule("already-endorsed", Effect.DECLINE, by="nacha-single-use", remedy=Remedy.NEW_CHECK)
def already_endorsed(face: Face) -> Answer:
    """The back carries an endorsement already.

    What it asks: Was the back looked at and found written on or stamped?
    Why it matters: An endorsed check has passed through other hands, or a bank's, and may not be the tenderer's to
        give.
    Example: A bank's stamp on the back, a week old.
    What to do: Hand it back.
    """
    match face.endorsements.state:
        case State.TEXT:
            return Hit("The back is already signed or stamped.", (whole("endorsements", face.endorsements.text),))
        case State.BLANK:
            return None
        case State.ILLEGIBLE:
            message = "Something is on the back that cannot be read."
            return Hit(message, (at("endorsements"),), Effect.REFER, Remedy.REREAD)
        case _:
            return UNREAD


@rule("altered", Effect.REFER, by="ucc-3-302 ucc-3-407", remedy=Remedy.MANAGER)
def altered(alterations: Mark) -> Answer:
    """Something on the face was changed.

    What it asks: Did the clerk see an erasure, an overwriting or another ink?
    Why it matters: One who takes a check with a visible alteration loses the standing of a holder in due course, and an
        alteration can set the drawer free.
    Example: A 1 before the amount, in a darker blue than the rest.
    What to do: Call the manager; the drawer's initials beside the change do not settle it.
    """
    match alterations:
        case Mark.NO:
            return None
        case Mark.ILLEGIBLE:
            message = "Nobody can make out whether something on it was changed."
            return Hit(message, (at("alterations"),), None, Remedy.REREAD)
        case _:
            return Hit("Something on it was changed.", (at("alterations"),))


def legends_seen(face: Face) -> Answer:
    """Held where the legends were looked at; such wording may stand on any line, but its absence is seen only there."""
    return None if face.legends.state in (State.TEXT, State.BLANK) else UNREAD


def marked(marks: tuple[Legend, ...]) -> tuple[Label, ...]:
    """Labels on *marks*, the first of them what a finding is about."""
    return tuple(at(mark.reading, mark.span, "", primary=index == 0) for index, mark in enumerate(marks))


def said(face: Face, marks: tuple[Legend, ...]) -> str:
    """What the first of *marks* says, in quotation marks and not too much of it."""
    text = " ".join(marks[0].span.of(getattr(face, marks[0].reading).text).split())
    return f'"{text[:40]}"'
