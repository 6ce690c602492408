"""The magnetic stripe of a driver's license, also met inside barcodes.

Source: AAMVA DL/ID Card Design Standard, annex on the optional magnetic stripe. Track 2 is the issuer's six
digits and the number, up to thirteen digits, ``=``, expiry YYMM, birth CCYYMMDD and the rest of a longer
number. Month 77 never expires, 88 is the last day of the birth month a year on, 99 the birthday. Track 1
has state, city (13 characters at most), ``FAMILY$GIVEN$MIDDLE`` (35) and street; a field that fills its width has no
separator behind it. Readers that are keyboards, and barcodes that hold the tracks, leave the sentinels away.

>>> card = read_stripe("%VARICHMOND^SAMPLE$MICHAEL$JOHN^2300 BROAD ST^?;636000642357890=241219860606=?")
>>> card.issuer, card.family, card.expires.kind, card.expires.latest.isoformat()
('VA', 'SAMPLE', 'between', '2024-12-31')
>>> read_stripe("VARICHMOND^SAMPLE$MICHAEL$JOHN^2300 BROAD ST^\\n636000642357890=241219860606=").repairs[0].kind
'sentinels-lost'
>>> read_stripe(";4111111111111111=29122011234567890?").kind
'id-number-forbidden'
"""

from __future__ import annotations

from calendar import monthrange
from datetime import date

from checkface.patterns import lazily
from checkface.span import Fault, Span

from .card import Address, Birth, Card, Check, Name, Repair, name_part
from .carddates import day
from .expiry import Expiry, among, within_month
from .number import Forbidden, IdNumber, admit, fits_shape, luhn_holds
from .places import issuer_of

_LONGEST = 1_000
_CITY, _NAME = 13, 35  # widest fields of track 1
_STARTS = lazily(r"%[A-Z]|;[0-9]{6}|[0-9]{7,19}=[0-9]{4}")
_TRACK_1 = lazily(r"(%)?(?<![A-Z])([A-Z]{2})([A-Z .'-]{1,48}[\^$][^%;?\n\r=]{0,110})")
_TRACK_2 = lazily(r"(;?)(?<![0-9])([0-9]{6})([0-9]{1,13})=([0-9]{2})([0-9]{2})([0-9]{8})([0-9]{0,5})")
_PAYMENT = lazily(r"(?:%B|(?<![0-9=]))([0-9]{13,19})[=^D]")


def looks_like_stripe(text: str) -> bool:
    """Whether *text* begins as a track of a magnetic stripe does."""
    return _STARTS.match(text) is not None


def holds_track(text: str) -> bool:
    """Whether track 2 of a license's magnetic stripe stands anywhere in *text*, with or without its sentinels."""
    return _TRACK_2.search(text, 0, _LONGEST) is not None


def read_stripe(text: str) -> Card | Fault:
    """Read the tracks of a license's magnetic stripe; track 2 is needed, track 1 gives name and address.

    A payment card is refused by its number, which is neither kept nor quoted.
    """
    whole = Span(0, len(text))
    if len(text) > _LONGEST:
        return Fault("id-too-long", whole, f"at most {_LONGEST:,} characters", f"{len(text):,}")
    payment = _PAYMENT.search(text)
    if payment and luhn_holds(payment[1]) and issuer_of(payment[1][:6]) is None:
        return Fault("id-number-forbidden", whole, "the stripe of a license", "the stripe of a payment card")
    track = _TRACK_2.search(text)
    if track is None:
        return Fault("id-stripe-track-2", whole, "issuer, number, expiry and birth date on track 2", "no such track")
    sentinel, iin, number, year, month, birth, overflow = track.groups()
    issuer = issuer_of(iin)
    if issuer is None and not sentinel:
        # Without a sentinel nothing but a known issuer says where the track begins.
        return Fault("id-stripe-track-2", whole, "a start sentinel or a known issuer on track 2", "neither")
    repairs: list[Repair] = []
    checks: list[Check] = [] if issuer else [Check("issuer-unknown", "the issuer number is in no table")]
    born = day(birth[:4], birth[4:6], birth[6:])
    name, address, first = _track_1(text, issuer.code if issuer else "", repairs)
    if not sentinel or not first:
        repairs.insert(0, Repair("sentinels-lost", "the tracks stand without their sentinels"))
    if not name.family:
        checks.append(Check("name-missing", "no family name was read"))
    expires = _expiry(year, month, born)
    if born and expires.latest and expires.latest <= born:
        checks.append(Check("dates-inconsistent", "expires before the holder's birth"))
    forbidden: list[Forbidden] = []
    state = issuer.code if issuer else ""
    if issuer and address.state and address.state != state:
        checks.append(Check("state-differs", f"issuer {state}, address in another state"))
    return Card(
        kind="license-or-id",
        issuer=state,
        country=issuer.country if issuer else "",
        expires=expires,
        number=_number(number + overflow, state, repairs, checks, forbidden),
        repairs=tuple(repairs),
        checks=tuple(checks),
        forbidden=tuple(forbidden),
        medium="stripe",
        issuer_code=iin,
        name=name,
        birth=Birth(born) if born else Birth(),
        address=address,
    )


def _track_1(text: str, issuer: str, repairs: list[Repair]) -> tuple[Name, Address, bool]:
    """Name and address of track 1, and whether its sentinel is there or nothing is missing it."""
    track = _TRACK_1.search(text)
    if track is None:
        return Name(), Address(), True
    state, line = track[2], track[3]
    if state in ("DL", "EN") or (state == "ID" != issuer and issuer and line.startswith(issuer)):
        state, line = line[:2], line[2:]  # what stood before it was the type of a barcode's subfile
    city, *rest = line.split("^")
    if len(city) > _CITY:  # a city that fills its width leaves no room for the separator
        city, rest = city[:_CITY], [city[_CITY:], *rest]
    field, *rest = rest or [""]
    if len(field) > _NAME:
        field, rest = field[:_NAME], [field[_NAME:], *rest]
        repairs.append(Repair("name-full-width", "the name fills its width and has no separator behind it"))
    parts = [part.strip() for part in field.split("$")]
    family, given, middle = [name_part(part) for part in [*parts, "", ""][:3]]
    name = Name(family, given, middle)
    street = rest[0].replace("$", " ") if rest else ""
    return name, Address(street.strip(), city.strip(), state), bool(track[1])


def _expiry(year: str, month: str, born: date | None) -> Expiry:
    """Two-digit years from 80 on are of the last century: no license runs for more than about fifty years."""
    raw = year + month
    full = int(year) + (1900 if int(year) >= 80 else 2000)
    if month == "77":
        return Expiry("never", raw=raw)
    if born and month == "88":
        last = monthrange(full + 1, born.month)[1]
        return among((date(full + 1, born.month, last),), raw)
    if born and month == "99":
        in_march = (born.month, born.day) == (2, 29) and monthrange(full, 2)[1] == 28
        days = (date(full, 2, 28), date(full, 3, 1)) if in_march else (date(full, born.month, born.day),)
        return among(days, raw)
    return within_month(full, int(month), raw) if "01" <= month <= "12" else Expiry("unknown")


def _number(
    digits: str, state: str, repairs: list[Repair], checks: list[Check], forbidden: list[Forbidden]
) -> IdNumber | None:
    """The number. Track 2 has no letters: a leading one is written as its place in the alphabet, 01 to 26."""
    if fits_shape(state, digits) is False:
        place = int(digits[:2])
        lettered = chr(64 + place) + digits[2:] if 1 <= place <= 26 else digits
        if fits_shape(state, lettered):
            repairs.append(Repair("number-letter", "the leading letter was written as two digits"))
            return IdNumber(lettered)
        checks.append(Check("number-shape", "the number has no shape that its issuer uses"))
    admitted, found = admit(digits, state, own=True)
    if admitted is None and found:
        forbidden.append(found)
    return admitted
