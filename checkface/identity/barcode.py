"""The two-dimensional barcode on the back of a driver's license or identification card.

Source: AAMVA DL/ID Card Design Standard, editions 2000 to 2025 (versions 01 to 12), Annex D. A payload is not
signed: that it reads well says nothing about the card being genuine.

>>> card = read_barcode(
...     "@\\n\\x1e\\rANSI 636000100101DL00310063DLDAQT64235789\\nDCSSAMPLE\\nDDEN\\n"
...     "DACMICHAEL\\nDBA12102024\\nDCGUSA\\r"
... )
>>> card.kind, card.issuer, card.family, card.expires.on.isoformat(), card.masked_number
('drivers-license', 'VA', 'SAMPLE', '2024-12-10', '*****5789')
>>> read_barcode("IDUS...").kind
'id-unsupported-uniformed-services'
>>> read_barcode("half a sandwich").message
'Expected the payload of an identification card, read 15 other characters.'
"""

from __future__ import annotations

import re
from datetime import date

from checkface.span import Fault, Span

from .card import Birth, Card, Check, Repair
from .carddates import NO_DATA, CardDate
from .elements import card_address, card_date, card_name, said, split_swallowed
from .envelope import Envelope, open_envelope
from .expiry import Expiry, among
from .mrz import looks_like_mrz, read_mrz
from .number import Forbidden, IdNumber, admit, compact, fits_shape
from .places import Place, issuer_of, issuers_near
from .stripe import holds_track, looks_like_stripe, read_stripe

LONGEST = 16_384
"""Characters; a PDF417 symbol holds at most 2,710, and written-out control characters take several each."""

_KINDS = {"DL": "drivers-license", "ID": "state-id", "EN": "enhanced"}
_SOCIAL_SECURITY = ("DBK", "DBM")
_BIRTHDAYS = {"DDH": 18, "DDI": 19, "DDJ": 21}
_COUNTRIES = {"USA": "USA", "US": "USA", "CAN": "CAN", "CDN": "CAN", "MEX": "MEX"}
_COMPACT = re.compile(r"[\u00d7\u00f7\u00b6]")


def read_barcode(payload: str | bytes) -> Card | Fault:
    """Read a payload as the scanner gave it: an AAMVA barcode, a magnetic stripe or a machine-readable zone.

    Bytes are taken as ISO 8859-1, the standard's character set, unless they are plainly UTF-8. Every
    departure from the standard that was read all the same is in ``Card.repairs``, every contradiction in
    ``Card.checks``.
    """
    repairs: list[Repair] = []
    whole = Span(0, len(payload))
    if len(payload) > LONGEST:
        return Fault("id-too-long", whole, f"at most {LONGEST:,} characters", f"{len(payload):,}")
    text = payload if isinstance(payload, str) else _decode(payload, repairs)
    start = text.lstrip("\ufeff \t\r\n\x00")
    if looks_like_stripe(start):
        return read_stripe(text)
    if looks_like_mrz(start):
        return read_mrz(text)
    if start.startswith("IDUS"):
        return _unsupported("uniformed-services", whole, "a card of the uniformed services")
    envelope = open_envelope(text)
    if not envelope.elements:
        return _nothing_found(text, envelope)
    card = _card(envelope, repairs + envelope.repairs)
    parts = (
        card.family or card.name.unordered,
        card.number or card.forbidden,
        card.expires.kind != "unknown",
    )
    if sum(map(bool, parts)) < (1 if envelope.iin else 2):
        return _nothing_found(text, envelope)
    return card


def _decode(payload: bytes, repairs: list[Repair]) -> str:
    if payload.isascii():
        return payload.decode("ascii")
    try:
        text = payload.decode("utf-8")
    except UnicodeDecodeError:
        return payload.decode("latin-1")
    repairs.append(Repair("character-set", "bytes in UTF-8 instead of ISO 8859-1"))
    return text


def _unsupported(which: str, span: Span, words: str) -> Fault:
    return Fault(f"id-unsupported-{which}", span, "an AAMVA driver's license or identification card", words)


def _nothing_found(text: str, envelope: Envelope) -> Card | Fault:
    whole = Span(0, len(text))
    if len(_COMPACT.findall(text)) >= 3:
        return _unsupported("compact", whole, "the compact encoding of ISO/IEC 18013-2")
    if holds_track(text):
        return read_stripe(text)
    if not envelope.iin:
        read = f"{len(text)} other characters" if text.strip() else "nothing"
        return Fault("id-not-a-card", whole, "the payload of an identification card", read)
    if envelope.entries and not {"DL", "ID", "EN"} & set(envelope.entries):
        return _unsupported("document", whole, "another kind of document with an AAMVA header")
    if any(repair.kind == "separators-lost" for repair in envelope.repairs):
        return Fault("id-separators-lost", whole, "separators between the elements", "none")
    return Fault("id-no-elements", whole, "elements of three letters, each on its line", "none", "the header")


def _card(envelope: Envelope, repairs: list[Repair]) -> Card:
    elements, checks = envelope.elements, envelope.checks
    forbidden = [Forbidden("social-security", "certain") for code in _SOCIAL_SECURITY if said(elements, code)]
    for code in _SOCIAL_SECURITY:
        elements.pop(code, None)
    split_swallowed(elements, repairs, checks)
    issuer = issuer_of(envelope.iin) or _shortened(envelope.iin, said(elements, "DAJ").upper(), repairs)
    country = _COUNTRIES.get(said(elements, "DCG").upper(), "")
    year_first = _year_first(envelope.version, country or (issuer.country if issuer else ""))
    expires = _expiry(card_date(elements, "DBA", year_first, repairs), elements.get("DBA", ""))
    issued = card_date(elements, "DBD", year_first, repairs).days
    birth = card_date(elements, "DBB", year_first, repairs).days
    born = birth[0] if len(birth) == 1 else None
    number = _number(elements, issuer.code if issuer else "", forbidden, repairs, checks)
    name = card_name(elements, repairs, checks)
    address = card_address(elements, repairs)
    _check_dates(born, issued, expires, checks)
    _check_birthdays(born, elements, year_first, checks)
    _check_issuer(issuer, country, address.state, checks)
    return Card(
        kind=_KINDS.get(envelope.subfile, "license-or-id"),
        issuer=issuer.code if issuer else "",
        country=country or (issuer.country if issuer else ""),
        expires=expires,
        number=number,
        repairs=tuple(repairs),
        checks=tuple(checks),
        forbidden=tuple(forbidden),
        medium="barcode",
        issuer_code=envelope.iin,
        version=envelope.version,
        name=name,
        issued=issued[0] if len(issued) == 1 else None,
        birth=Birth(born) if born else Birth(),
        address=address,
        limited_duration=elements["DDD"] == "1" if elements.get("DDD") else None,
    )


def _year_first(version: int | None, country: str) -> bool:
    """CCYYMMDD in the 2000 edition, MMDDCCYY in the 2003 edition, since then CCYYMMDD for Canada only."""
    return version == 1 or (version != 2 and country == "CAN")


def _expiry(found: CardDate, raw: str) -> Expiry:
    if found.nature == "never":
        return Expiry("never", raw=raw)
    known = found.days or raw.strip().upper() in NO_DATA
    return among(found.days, raw if known else "")


def _shortened(iin: str, state: str, repairs: list[Repair]) -> Place | None:
    """The issuer whose number lost a digit, if the address says which one it is."""
    found = {place for place in issuers_near(iin) if place.code == state} if len(iin) == 5 and state else set()
    if len(found) != 1:
        return None
    repairs.append(Repair("issuer-by-address", "the issuer that the short number leaves open is that of the address"))
    return found.pop()


def _number(
    elements: dict[str, str], state: str, forbidden: list[Forbidden], repairs: list[Repair], checks: list[Check]
) -> IdNumber | None:
    text = _without_discriminator(said(elements, "DAQ"), said(elements, "DCF"), state, repairs)
    if not compact(text):
        checks.append(Check("number-missing", "the card gives no number"))
        return None
    number, found = admit(text, state, own=True)
    if number is None and found:
        forbidden.append(found)
    elif fits_shape(state, compact(text)) is False:
        checks.append(Check("number-shape", "the number has no shape that its issuer uses"))
    return number


def _without_discriminator(text: str, discriminator: str, state: str, repairs: list[Repair]) -> str:
    """The number without the document discriminator that was glued to it, where the issuer's shapes tell them apart."""
    before, letters, _ = text.partition("DCF")
    if not letters and discriminator and text.endswith(discriminator):
        before, letters = text.removesuffix(discriminator), "DCF"
    if not letters or fits_shape(state, compact(text)) or not fits_shape(state, compact(before)):
        return text
    repairs.append(Repair("number-glued", "the document discriminator stood behind the number"))
    return before.strip()


def _check_dates(born: date | None, issued: tuple[date, ...], expires: Expiry, checks: list[Check]) -> None:
    """Birth before issue, issue before expiry."""
    latest = expires.latest
    if born and issued and born >= max(issued):
        checks.append(Check("dates-inconsistent", "issued before the holder's birth"))
    if latest and issued and latest < min(issued):
        checks.append(Check("dates-inconsistent", "expires before it was issued"))
    if born and latest and latest <= born:
        checks.append(Check("dates-inconsistent", "expires before the holder's birth"))


def _check_birthdays(born: date | None, elements: dict[str, str], year_first: bool, checks: list[Check]) -> None:
    """The days until which the holder is under age are birthdays; of a leap day's child either neighbour."""
    if born is None:
        return
    leap = (born.month, born.day) == (2, 29)
    for code, age in _BIRTHDAYS.items():
        days = card_date(elements, code, year_first, []).days
        if len(days) == 1:
            year, month_and_day = days[0].year - born.year, (days[0].month, days[0].day)
            if year != age or month_and_day not in ({(2, 28), (2, 29), (3, 1)} if leap else {(born.month, born.day)}):
                checks.append(Check("dates-inconsistent", f"the day of reaching {age} is not that birthday"))


def _check_issuer(issuer: Place | None, country: str, state: str, checks: list[Check]) -> None:
    if issuer is None:
        checks.append(Check("issuer-unknown", "the issuer number is in no table"))
        return
    if not issuer.confirmed:
        checks.append(Check("issuer-unconfirmed", "the issuer number is in no published list"))
    if country and country != issuer.country:
        checks.append(Check("country-differs", f"issuer in {issuer.country}, country {country}"))
    if state and issuer.code and state != issuer.code:
        checks.append(Check("state-differs", f"issuer {issuer.code}, address in another state"))
