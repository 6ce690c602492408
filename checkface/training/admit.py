"""What of a tender may be drawn. A drawn face never takes real readings: this is the one door to it.

- The routing number is a specimen of ``data/specimen_routing.csv``, one of them spoilt by a single slip so that its sum
  fails, or a number of ``data/specimen_papers.toml`` behind which no customer has an account. With any other, and with
  the fraction of any other bank, the tender is refused.
- The account is never taken over, only its shape: its digits are worked out from the routing number and the printed
  check number.
- Names and addresses that are not ours are replaced by ours. In all other wording only whole phrases of the rule book,
  our own prints, printed limits, amounts and dates stay; every other word becomes a row of z, every other digit a zero.
- Names that a house policy gives (its own, and those it is paid under) are drawn where they stand as payee: a trainer
  who must not show them gives no policy.
- Of documents only kind, issuer, expiry and whose they are is taken over.

What is left is the amount, the dates, the check number and the wording that says what kind of paper it is.

>>> from checkface.assessment import parse
>>> given = {"face": {"micr": "T071098973T 998877665O 1043", "serial": "1043", "payee": "Somebody Real"}}
>>> face = admitted(parse(given)).face
>>> face.micr.text.endswith(" 1043"), "998877665" in face.micr.text, face.payee.text
(True, False, 'Cleo Trialby')
>>> admitted(parse({"face": {"micr": "T111000025T 45601122O 1043"}}))
Traceback (most recent call last):
checkface.training.admit.NotASpecimenError: Expected a specimen's routing number on the line, read another: real \
numbers are never drawn.
"""

from __future__ import annotations

import random
from typing import Any

from checkface import micr
from checkface.assessment import parse
from checkface.dates import CheckDate
from checkface.patterns import lazily
from checkface.policy import Policy
from checkface.reading import ReadTender, read
from checkface.routing import Fraction
from checkface.tender import Face, Kind, Mark, State, Tender
from checkface.training import invented, wording

#: Why a bond is not drawn.
BOND = "Expected a check to draw, read a savings bond: it has no drawer, payee or account, and is not drawn as a check."
#: Characters of a line that a drawn check has room for (ASC X9 TR 100-2013).
POSITIONS = 65
#: Digits of the longest check number that is taken over, which is one of a personal check, one left of the routing
#: number and one of a federal item; a longer one may be an account.
LONGEST_SERIAL, LONGEST_BUSINESS, LONGEST_FEDERAL = 6, 8, 11
FEDERAL = "000"
#: Digits of a number from which it may tell an account.
_TELLING = 4
_SYMBOLS = "\u2446\u2447\u2448\u2449"
_SHORT_ANYWAY = frozenset({"routing", "epc", "amount"})
_RUN = lazily(r"[0-9]+")
_NUMBERS = frozenset({"serial", "auxiliary"})
_SETTLED = frozenset({"routing", "serial", "auxiliary", "epc", "transaction_code", "amount"})


class NotASpecimenError(ValueError):
    """A tender that may not be drawn. Its text is one sentence that quotes no number."""


def admitted(tender: Tender, policy: Policy | None = None) -> Tender:
    """*tender* as it may be drawn; given again, it comes out unchanged.

    *policy* names the house, which may stand as payee. Raises :class:`NotASpecimenError`.
    """
    found = read(tender)
    if Kind.SAVINGS_BOND in found.kinds:
        raise NotASpecimenError(BOND)
    face: dict[str, Any] = {}
    for name in Face.model_fields:
        value = getattr(tender.face, name)
        if isinstance(value, Mark):
            if value is not Mark.ABSENT:
                face[name] = None if value is Mark.ILLEGIBLE else value is Mark.YES
        elif value.state is State.TEXT:
            face[name] = _TEXTS[name](found, value.text, policy)
        elif value.state is not State.ABSENT:
            face[name] = None if value.state is State.ILLEGIBLE else ""
    wire: dict[str, Any] = {"face": face, "counter": _counter(tender)}
    if tender.documents is not None:
        wire["documents"] = [
            {
                "kind": wording.document(document.kind),
                "state": document.state[:2],
                "expires": document.expires if not document.expires.strip("0123456789-/") else "",
                "name": _bearer(found, document.name),
                "is_bearer": document.is_bearer,
            }
            for document in tender.documents[:8]
        ]
    return parse(wire)


def _counter(tender: Tender) -> dict[str, Any]:
    taken = tender.counter.model_dump(mode="json", exclude_unset=True)
    return {key: value for key, value in taken.items() if key not in {"store", "lane", "employee"}}


def _line(found: ReadTender, text: str, _: Policy | None) -> str:
    line = found.micr
    if not isinstance(line, micr.MicrLine):
        return _other_digits(_printed(text), set(), found)
    shown = _printed(micr.translate(text, line.notation, "unicode"))
    if shown != text:
        again = micr.read(shown, "unicode", None, found.serial)
        if not isinstance(again, micr.MicrLine):
            raise NotASpecimenError("Expected a line that can be printed in E-13B, read another.")
        line = again
    if line.country == "US":
        place = line.spans.get("routing")
        between = place.of(shown).replace(_SYMBOLS[3], "-") if place else ""
        if not invented.is_drawable(between):
            raise NotASpecimenError(
                "Expected a specimen's routing number on the line, read another: real numbers are never drawn."
            )
    kept_fields = _SETTLED if line.country == "US" else _SETTLED - {"routing"}
    longest, fixed = _longest(found), set[int]()
    for field, span in line.spans.items():
        if field in _NUMBERS and _repeats(found, span.of(shown)):
            shown = shown[: span.start] + _zeros(span.of(shown)) + shown[span.end :]
        elif field not in kept_fields or (field not in _SHORT_ANYWAY and span.end - span.start > longest):
            continue
        fixed |= set(range(*span))
    if line.account and not line.account.strip("0"):
        fixed |= set(range(*line.spans["account"]))  # zeros are nobody's account
    return _other_digits(shown, fixed, found)


def _printed(text: str) -> str:
    """*text* in the fourteen characters of the font, a blot for any other, cut to no more than a check has room for."""
    dashed = text.replace("-", _SYMBOLS[3]).rstrip()
    if len(dashed) > POSITIONS:
        dashed = " ".join(dashed.split())
    if len(dashed) > POSITIONS:
        raise NotASpecimenError(f"Expected a line of at most {POSITIONS} characters to draw, read a longer one.")
    return "".join(c if c in _SYMBOLS or c in "0123456789 " else " " if c.isspace() else "?" for c in dashed)


def _other_digits(text: str, kept: set[int], found: ReadTender) -> str:
    """*text* with every digit outside *kept* replaced by one of an invented account."""
    places = [at for at, character in enumerate(text) if character in "0123456789" and at not in kept]
    serial = _digits(found)
    if _number(found).startswith(FEDERAL) and serial and (start := text.rfind(serial)) >= 0:
        # The lines of federal items hold no account, and where their number stands is not published.
        places = [at for at in places if not start <= at < start + len(serial)]
    fresh = dict(zip(places, invented.stream(f"{_number(found)} {serial}", len(places)), strict=True))
    return "".join(fresh.get(at, character) for at, character in enumerate(text))


def _number(found: ReadTender) -> str:
    return (found.line.routing if found.line else None) or ""


def _longest(found: ReadTender) -> int:
    if _number(found).startswith(FEDERAL):
        return LONGEST_FEDERAL
    return LONGEST_BUSINESS if found.line and found.line.auxiliary else LONGEST_SERIAL


def _repeats(found: ReadTender, number: str) -> bool:
    """Whether *number* is the account, or so much of it that it tells the account."""
    account, digits = _bare_digits(_account(found)), _bare_digits(number)
    if digits == account:
        return len(digits) >= _TELLING
    return min(len(digits), len(account)) > _TELLING and (digits in account or account in digits)


def _account(found: ReadTender) -> str:
    """The account; where the line leaves it open, the longest number on it that has not the length of a bank's."""
    line = found.line
    if line is not None and all(doubt.field != "account" for doubt in line.ambiguities):
        return line.account or ""
    numbers = _RUN.findall(found.face.micr.text)
    return max((number for number in numbers if len(number) != 9), key=len, default="")


def _bare_digits(text: str) -> str:
    return "".join(c for c in text if c in "0123456789").lstrip("0")


def _zeros(text: str) -> str:
    return "".join("0" if c.isdecimal() else c for c in text)


def _digits(found: ReadTender) -> str:
    """The digits of the check number as it will be drawn."""
    return "".join(c for c in _serial(found, found.face.serial.text, None) if c in "0123456789")


def _dice(found: ReadTender, what: str) -> random.Random:
    """Dice that fall alike for one check, and hang on nothing that may be real."""
    return invented.dice(f"{what} {_number(found)} {_digits(found)}")


def _fraction(found: ReadTender, text: str, _: Policy | None) -> str:
    fraction = found.fraction
    if isinstance(fraction, Fraction):
        # Zeros alone are what is left of a fraction that could not be read.
        if _bare_digits(text) and fraction.first_eight not in invented.drawable_eights():
            raise NotASpecimenError(
                "Expected the fraction of a specimen bank, read another: real ones are never drawn."
            )
        return text
    whole = any(text.strip() in bank.fraction for bank in invented.banks())
    return text if whole else wording.printed(text)


def _serial(found: ReadTender, text: str, _: Policy | None) -> str:
    shown = wording.plain(text)[:24]
    if _repeats(found, text) or sum(map(str.isdecimal, shown)) > _longest(found):
        shown = _zeros(shown)
    return "".join(c if not c.isalpha() or c in "NnOo" else "z" for c in shown)


def _date(found: ReadTender, text: str, _: Policy | None) -> str:
    return wording.plain(text) if isinstance(found.date, CheckDate) else wording.written(text, misspelled=False)


def _ours(text: str) -> bool:
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    return len(lines) <= 5 and all(map(invented.lines_of_ours().fullmatch, lines))


def _drawer(found: ReadTender, text: str, _: Policy | None) -> str:
    if _ours(text):
        return text
    dice = _dice(found, "drawer")
    kinds = {piece.kind for piece in found.kind.evidence if piece.reading == "drawer"}
    state = next((bank.state for bank in invented.banks() if bank.routing == _number(found)), "IL")
    if Kind.TREASURY_CHECK in kinds:
        return "United States Treasury"
    if kinds & {Kind.CASHIERS_CHECK, Kind.TELLERS_CHECK}:
        return invented.names("banks")[0]
    if Kind.GOVERNMENT_CHECK in kinds:
        return invented.names("officers")[0]
    who = dice.choice(invented.names("firms")) if kinds & {Kind.BUSINESS, Kind.PAYROLL} else invented.person(dice)
    first, *rest = [line.strip() for line in text.splitlines() if line.strip()] or [""]
    if rest and invented.lines_of_ours().fullmatch(first):
        who = first  # a name of ours at an address that is not
    return "\n".join([who, *invented.address(dice, state)])


def _drawee(found: ReadTender, text: str, _: Policy | None) -> str:
    return text if _ours(text) else _dice(found, "drawee").choice(invented.names("banks"))


def _payee(found: ReadTender, text: str, policy: Policy | None) -> str:
    houses = {invented.house().casefold()}
    if policy is not None:
        houses |= {name.casefold() for name in (policy.house.name, *policy.payee.names) if name}
    if text.strip().casefold() in houses or _ours(text):
        return text
    return invented.person(_dice(found, "payee"))


def _bearer(found: ReadTender, name: str) -> str:
    """The name on a document: the drawer's new one where the two were the same, another of ours where they were not."""
    if not name or _ours(name):
        return name
    same = set(name.casefold().replace(",", " ").split()) == set(
        (found.face.drawer.text.casefold() + "\n").split("\n")[0].split()
    )
    if not same:
        return invented.person(_dice(found, "bearer"))
    return _drawer(found, found.face.drawer.text, None).splitlines()[0]


def _understood(part: str) -> Any:
    """Wording in which a part has understood every word stays; of any other only the words we know.

    Where it has understood nothing a word that is nearly one of ours is no slip of the pen, but may be a name.
    """

    def text_of(found: ReadTender, text: str, _: Policy | None) -> str:
        value = getattr(found, part)
        clear = value is not None and getattr(value, "verdict", "") == "clear"
        understood = getattr(value, "verdict", "") != ""
        return wording.plain(text) if clear else wording.written(text, misspelled=understood)

    return text_of


def _wording(_found: ReadTender, text: str, _: Policy | None) -> str:
    return wording.printed(text)


_TEXTS: dict[str, Any] = {
    "micr": _line, "fraction": _fraction, "serial": _serial, "date": _date, "payee": _payee,
    "figures": _understood("figures"), "words": _understood("words"), "drawer": _drawer, "drawee": _drawee,
    "legends": _wording, "memo": _wording, "endorsements": _wording,
}  # fmt: skip
