"""Read every part of a tender. The parts do the reading; here they are only put side by side."""

from __future__ import annotations

from collections.abc import Mapping

from checkface import amounts, dates, identity, instruments, micr, routing
from checkface.blank import is_blank
from checkface.kinds import Kind
from checkface.micr import MicrLine
from checkface.patterns import lazily
from checkface.reading.value import NEEDS, ReadTender, Shown
from checkface.routing import Fraction, RoutingNumber
from checkface.span import Fault, Span
from checkface.tender import Counter, Document, Face, Mark, Reading, State, Tender

_TEXTS = {
    "micr": "micr_text", "fraction": "fraction_text", "serial": "serial", "date": "date_text", "payee": "payee",
    "figures": "figures_text", "words": "words_text", "drawer": "drawer", "drawee": "drawee", "legends": "legends",
    "memo": "memo", "endorsements": "endorsements",
}  # fmt: skip
_CIRCUMSTANCES = {
    "on": "on", "network": "network", "micr_by": "micr_by", "amount": "keyed_amount", "purchase": "purchase",
    "authorization_signed": "authorization",
}  # fmt: skip
#: Values of which nothing is asked where their reading is blank; a blank magnetic-ink line is a line not read.
_BLANK_VALUES = {"fraction", "date", "figures", "words"}
_TEXT_BITS = tuple(
    (name, NEEDS[need], NEEDS[need] | (NEEDS[name] if name in _BLANK_VALUES else 0)) for name, need in _TEXTS.items()
)
_MARK_BITS = tuple((name, NEEDS[name]) for name in ("signature", "countersignature", "alterations"))
_COUNTER_BITS = tuple((name, NEEDS[need]) for name, need in _CIRCUMSTANCES.items())
_MICR, _ACCOUNT, _ROUTING = NEEDS["micr"], NEEDS["account"], NEEDS["routing"]
_FRACTION, _WORDS, _FIGURES, _DATE = NEEDS["fraction"], NEEDS["words"], NEEDS["figures"], NEEDS["date"]
_AMOUNT, _KIND, _DOCUMENTS, _DOCUMENT = NEEDS["amount"], NEEDS["kind"], NEEDS["documents"], NEEDS["document"]
_CONFIDENCE = NEEDS["confidence"]
_BLANK, _TEXT, _ILLEGIBLE, _UNSEEN = State.BLANK, State.TEXT, State.ILLEGIBLE, Mark.ABSENT
_SETTLING = frozenset({instruments.Weight.DECISIVE, instruments.Weight.STRONG})
_ALONE = {kind: frozenset({kind}) for kind in Kind}
_WORDING = ("legends", "memo", "drawer", "drawee", "payee", "endorsements")


#: A letter or a digit: where there is none, and no line to write on, nothing but the form stands there.
_WRITTEN = lazily(r"[^\W_]")
#: What a reader writes for a sign it could not make out.
_UNREAD = lazily("[?\ufffd]")
#: Readings that a hand fills in on a form; dashes are characters of the magnetic-ink line.
_MAY_BE_FURNITURE = ("serial", "date", "figures", "words", *_WORDING)


def read(
    tender: Tender, layouts: Mapping[str, micr.Layout] | None = None, table: micr.ReaderTable | None = None
) -> ReadTender:
    """Read every part of *tender*. Never raises; a part that makes nothing of its text leaves a :class:`Fault`.

    *layouts* are the house's own arrangements of the line by routing number (:func:`checkface.micr.parse_layouts`),
    *table* says what its reader writes (:func:`checkface.micr.reader_table`).
    """
    counter = tender.counter
    face, words, figures, date = _looked_at(tender.face, counter)
    known, blank, looked = _states(face, tender)
    serial = _digits(face.serial.text)
    line = micr.read(text, table, layouts, serial) if (text := face.micr.text) else None
    number = None
    if isinstance(line, MicrLine):
        known |= _MICR
        if line.account is not None:
            known |= _ACCOUNT
        if line.routing is not None:
            number = routing.describe(line.routing)
            known |= _ROUTING
    fraction = routing.read_fraction(text) if (text := face.fraction.text) else None
    if isinstance(fraction, Fraction):
        known |= _FRACTION
    if isinstance(words, amounts.WordsAmount):
        known |= _WORDS
    if isinstance(figures, amounts.FiguresAmount):
        known |= _FIGURES
    comparison = None
    if words is not None and figures is not None:
        comparison = amounts.compare(words, figures, _drawee_state(fraction))
    if isinstance(date, dates.CheckDate):
        known |= _DATE
    amount = counter.amount if counter.amount is not None else _settled(words, figures, comparison)
    if amount is not None:
        known |= _AMOUNT
    kind = instruments.infer(_line_facts(line, number), _wording(face, words, figures, date))
    drawer = instruments.describe_drawer(face.drawer.text)
    kinds = _kinds(kind, counter.declared_kind)
    if counter.declared_kind not in (None, Kind.PERSONAL) and drawer.verdict != "person":
        kinds -= {Kind.PERSONAL}  # a shape that may be a person's does not contradict another kind
    if kinds:
        known |= _KIND
    shown = tuple(map(_shown, tender.documents)) if tender.documents else ()
    drawee = instruments.describe_drawee(face.drawee.text, number.series if number else None)
    return ReadTender(
        tender, face, counter, line, line if isinstance(line, MicrLine) else None, number, fraction, serial, words,
        figures, comparison, date, kind, kinds, drawer,
        drawee, _unsettled(face, drawee), amount,
        shown, known, blank, looked,
    )  # fmt: skip


def _unsettled(face: Face, drawee: instruments.Drawee) -> tuple[tuple[str, instruments.Unsettled], ...]:
    """The print nobody understood, each with its reading.

    That a bank pays for a credit union or for another obligor says nothing more where the drawee's line names it.
    """
    through = drawee.union or drawee.verdict == "other"
    return tuple(
        (name, one)
        for name in ("legends", "memo")
        if (text := getattr(face, name).text)
        for one in instruments.unsettled(text, memo=name == "memo", through=through and name == "legends")
    )


def _looked_at(
    face: Face, counter: Counter
) -> tuple[
    Face,
    amounts.WordsAmount | Fault | None,
    amounts.FiguresAmount | Fault | None,
    dates.CheckDate | Fault | None,
]:
    """The face with what only the form prints (dashes, ``__/__/20__``, ``$____``) told as blank, and its parts read."""
    words = amounts.read_words(text) if (text := face.words.text) else None
    figures = amounts.read_figures(text) if (text := face.figures.text) else None
    date = dates.read(text, counter.on) if (text := face.date.text) and counter.on else None
    blank: dict[str, Reading] = {}
    for name in _MAY_BE_FURNITURE:
        reading: Reading = getattr(face, name)
        # What begins with a letter or a figure and has no line to write on was written or printed to be read.
        if (text := reading.text) and ("_" in text or not (text[0].isalnum() or _WRITTEN.search(text))):
            if is_blank(text):
                blank[name] = reading._replace(state=_BLANK, text="")
            elif _UNREAD.search(text) and not _WRITTEN.search(text):
                blank[name] = reading._replace(state=_ILLEGIBLE, text="")
    for name, part in (("words", words), ("figures", figures), ("date", date)):
        if isinstance(part, Fault) and part.kind == f"{name}-blank":
            blank[name] = getattr(face, name)._replace(state=_BLANK, text="")
    if not blank:
        return face, words, figures, date
    face = face.model_copy(update=blank)
    return (
        face,
        words if face.words.text else None,
        figures if face.figures.text else None,
        date if face.date.text else None,
    )


def _states(face: Face, tender: Tender) -> tuple[int, int, int]:
    """What was read, what was found blank, and what was looked at in any way, as bits of :data:`NEEDS`."""
    counter = tender.counter
    known, blank, looked = 0, _CONFIDENCE, 0
    read, told = face.__dict__, counter.__dict__
    for name, bit, empty in _TEXT_BITS:
        state, _, _, confidence = read[name]
        if confidence is not None:
            known |= _CONFIDENCE
        if state is _TEXT:
            known |= bit
        elif state is _BLANK:
            blank |= empty
        elif state is _ILLEGIBLE:
            looked |= bit
    for name, bit in _MARK_BITS:
        if read[name] is not _UNSEEN:
            known |= bit
    for name, bit in _COUNTER_BITS:
        if told[name] is not None:
            known |= bit
    looked |= known | blank
    if tender.documents is not None:
        known |= _DOCUMENTS | _DOCUMENT if tender.documents else _DOCUMENTS
        # Asked and none shown is a fact, not a missing look: what is asked of a document does not apply.
        blank |= 0 if tender.documents else _DOCUMENT
    return known, blank, looked if tender.documents is None else looked | _DOCUMENTS


def _shown(document: Document) -> Shown:
    card = identity.read_barcode(document.barcode) if document.barcode else None
    keyed = None
    if card is None or document.kind or document.number or document.state or document.expires:
        keyed = identity.read_keyed(document.kind, document.number, document.state, document.expires)
    best = card if isinstance(card, identity.Card) else keyed if isinstance(keyed, identity.Document) else None
    return Shown(document, card, keyed, best)


def _digits(text: str) -> str | None:
    if text.isascii() and text.isdigit():
        return text
    return "".join(c for c in text if c in "0123456789") or None


def _settled(
    words: amounts.WordsAmount | Fault | None,
    figures: amounts.FiguresAmount | Fault | None,
    comparison: amounts.Comparison | None,
) -> int | None:
    """The one amount the face states: both agree, or one alone is clear."""
    if comparison is not None:
        return comparison.ruling_cents
    return next((r.cents for r in (words, figures) if r is not None and not isinstance(r, Fault)), None)


def _drawee_state(fraction: Fraction | Fault | None) -> str | None:
    """The state whose law rules between words and figures, where the fraction's prefix names one."""
    if isinstance(fraction, Fraction) and len(fraction.states) == 1:
        return fraction.states[0]
    return None


def _line_facts(line: MicrLine | Fault | None, number: RoutingNumber | None) -> instruments.LineFacts | None:
    if not isinstance(line, MicrLine):
        return None
    owner = number.government if number else None
    series = number.series if number and number.number.strip("0") else None  # nine zeros are nobody's number
    return instruments.LineFacts(
        series,
        owner.kind if owner else None,
        owner.confirmed if owner else False,
        line.epc,
        line.auxiliary is not None,
        line.account is not None,
        line.serial is not None,
        line.country,
    )


def _wording(
    face: Face,
    words: amounts.WordsAmount | Fault | None,
    figures: amounts.FiguresAmount | Fault | None,
    date: dates.CheckDate | Fault | None,
) -> dict[str, str]:
    """The readings that may hold wording. One of which a part has understood every word holds nothing else."""
    found = {name: text for name in _WORDING if (text := getattr(face, name).text)}
    if words is not None and (isinstance(words, Fault) or words.verdict != "clear"):
        found["words"] = face.words.text
    if figures is not None and (isinstance(figures, Fault) or figures.verdict != "clear"):
        found["figures"] = face.figures.text
    if isinstance(date, Fault) or (date is None and face.date.text):
        found["date"] = face.date.text
    return found


def _kinds(inference: instruments.Inference, declared: Kind | None) -> frozenset[Kind]:
    """Every kind for which something positive speaks. One mark that leaves several kinds open speaks for those of them
    that anything else names, and for all of them where nothing does."""
    if declared is not None and declared is inference.kind and len(inference.evidence) == 1:
        return _ALONE[declared]
    marks: dict[tuple[str, Span | None], set[Kind]] = {}
    for piece in inference.evidence:
        if piece.weight in _SETTLING:
            marks.setdefault((piece.reading, piece.span), set()).add(piece.kind)
    found = {kind for kinds in marks.values() if len(kinds) == 1 for kind in kinds}
    if inference.kind is not None:
        found.add(inference.kind)
    for kinds in marks.values():
        if found.isdisjoint(kinds):  # the clerk's word alone does not choose between them
            found |= kinds
    if declared is not None:
        found.add(declared)
    return frozenset(found)
