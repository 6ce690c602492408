"""From the elements of an AAMVA payload to a name, dates and an address.

Which element holds a name changed with the editions: DAA (one string, 2000), DCS with DCT (2003, 2005), DCS
with DAC and DAD (since 2009). Cards mix them, so they are taken by preference and not by version. NONE and
``unavl`` are the standard's words for no data.

>>> card_name({"DCS": "SAMPLE", "DDE": "N", "DAC": "MICHAEL J", "DDF": "N"}, [], []).middle
'J'
>>> card_name({"DAA": "PUBLIC,JOHN,Q"}, [], []).family
'PUBLIC'
>>> card_name({"DAA": "JOHN Q PUBLIC"}, [], []).unordered    # which of them is the family name is not said
'JOHN Q PUBLIC'
"""

from __future__ import annotations

import re

from checkface.patterns import lazily

from .card import Address, Check, Name, Repair, name_part
from .carddates import CardDate, read_date
from .nicknames import is_given
from .persons import SUFFIXES, fold

Elements = dict[str, str]

_NO_DATA = frozenset({"", "NONE", "UNAVL", "UNAVAIL"})
_TRUNCATED = {"T": True, "N": False}
_INITIAL_AT_END = lazily(r"(.*[^ ]{2}) +([A-Z])\.?", re.IGNORECASE)
_TOWN_LINE = lazily(r"(.{1,60}?)[ ,]+([A-Z]{2})[ ,]+([0-9]{5}(?:-?[0-9]{4})?)(?:0000)?")
_STATE = lazily("[A-Z]{2,3}")
_CANADIAN_POSTAL = lazily(r"[A-Z][0-9][A-Z][0-9][A-Z][0-9]")
_EIGHT_DIGITS = lazily(r"[0-9]{8}")
_DATES, _FLAGS = {"DBA", "DBB", "DBD"}, {"DDE", "DDF", "DDG"}
_NAMES = ("DCS", "DAC", "DAD", "DCT")
_ENDS_IN_FLAG = lazily("DD[EFG][TNU]$")
_HOSTS = ("DCS", "DAC", "DAD", "DCT", "DAA", "DCU", "DAQ", "DAI", "DAJ", "DAK")


def said(elements: Elements, code: str) -> str:
    """The value of an element with its blanks made single, empty where the card says there is no data."""
    value = elements.get(code, "")
    if "  " in value:
        value = " ".join(value.split())
    return "" if value.upper() in _NO_DATA else value


def split_swallowed(elements: Elements, repairs: list[Repair], checks: list[Check]) -> None:
    """Find elements whose separator was lost, so that they stand at the end of the value before.

    A missing date is cut out of a value that ends in it. Other missing elements are not: MADDEN may be a name or
    the name MA and DDEN; the value that seems to hold them is dropped.
    """
    for code in sorted(_DATES - elements.keys()):
        for host in _HOSTS:
            before, letters, after = elements.get(host, "").rpartition(code)
            if letters and _EIGHT_DIGITS.fullmatch(after):
                elements[host], elements[code] = before.strip(), after
                repairs.append(Repair("separator-lost", f"element {code} stood inside element {host}"))
            elif letters and (after[:1].isdigit() or after in _NO_DATA):
                _drop(host, code, elements, checks)
    if "DAD" not in elements and "DAD" in elements.get("DAC", ""):
        _drop("DAC", "DAD", elements, checks)
    for code in sorted(_missing_names(elements)):
        for host in _HOSTS:
            if code in elements.get(host, ""):
                _drop(host, code, elements, checks)


def _missing_names(elements: Elements) -> set[str]:
    """Elements of the name that the card should have by what it has: of the three flags all or none, and its hosts."""
    present = elements.keys()
    missing = _FLAGS - present
    if len(missing) == len(_FLAGS) > 1 + sum(bool(_ENDS_IN_FLAG.search(elements.get(host, ""))) for host in _NAMES):
        missing = set()  # a card without any flag, on which one name may spell one
    if not present & {"DCS", "DAA", "DAB"}:
        return missing | {"DCS", "DAA"}
    return missing if present & {"DAA", "DAC", "DCT"} else missing | {"DAC", "DCT"}


def _drop(host: str, code: str, elements: Elements, checks: list[Check]) -> None:
    elements[host] = ""
    checks.append(Check("separator-lost", f"element {host} seems to hold element {code} too and was not read"))


def card_name(elements: Elements, repairs: list[Repair], checks: list[Check]) -> Name:
    """The holder's name. One string without commas is left unordered rather than guessed at."""
    family, given, middle = (_name_said(elements, code) for code in ("DCS", "DAC", "DAD"))
    suffix = _name_said(elements, "DCU") or _name_said(elements, "DAE")
    if not family and "DCS" not in elements:
        family = _name_said(elements, "DAB")
    if family and not given and (both := _name_said(elements, "DCT")):
        given, middle = _given_names(both)
    one_string = family if "," in family and not given else "" if family else _name_said(elements, "DAA")
    if one_string:
        parts = [part.strip() for part in re.split(r"[,$@]", one_string)]
        if len(parts) == 1:
            checks.append(Check("name-unordered", "the name is one string whose parts are not told apart"))
            return Name(suffix=suffix, unordered=one_string)
        if family:
            repairs.append(Repair("name-in-one", "element DCS holds the whole name"))
        ordered = parts if family else _family_first(parts)
        if ordered is None:
            checks.append(Check("name-unordered", "the name may stand given name first"))
            return Name(suffix=suffix, unordered=" ".join(filter(None, parts)))
        if ordered != parts:
            repairs.append(Repair("name-order", "the name stands given name first"))
            parts = ordered
        family, given, middle, last = [*parts, "", "", ""][:4]
        if len(middle) > 1 and middle.upper() in SUFFIXES:
            middle, last = "", middle
        suffix = suffix or last
    if given and not middle and (ending := _INITIAL_AT_END.fullmatch(given)):
        given, middle = ending[1], ending[2]
        repairs.append(Repair("middle-in-given", "a middle initial stood in the given name"))
    if not family:
        checks.append(Check("name-missing", "no family name was read"))
    flag = _TRUNCATED.get
    cut = (flag(elements.get("DDE", "")), flag(elements.get("DDF", "")), flag(elements.get("DDG", "")))
    return Name(family, given, middle, suffix, *cut)


def _family_first(parts: list[str]) -> list[str] | None:
    """The parts of a name as family, given and middle name; None where they may as well be given, middle and family.

    The 2000 edition asks for the first order, and some of its cards have the other. An initial is no family name, nor a
    given name before a full middle name; else a usual given name is looked for.
    """
    first, second, third = [*parts, ""][:3]
    turned = [third, first, second, *parts[3:]]
    if not third or third.upper() in SUFFIXES:
        return None if len(second) > 1 and _is_given(first) else parts
    if _is_initial(third):
        return parts
    if not second or (_is_initial(second) and _is_given(first) and not _is_given(third)):
        return turned
    return parts if _is_given(third) and not _is_given(first) else None


def _is_initial(part: str) -> bool:
    return len(part.rstrip(".")) == 1


def _is_given(part: str) -> bool:
    words = fold(part).replace("-", " ").split()
    return bool(words) and all(map(is_given, words))


def _name_said(elements: Elements, code: str) -> str:
    return name_part(said(elements, code))


def _given_names(text: str) -> tuple[str, str]:
    """First and middle names of element DCT, which joins them by commas or blanks."""
    first, _, rest = text.replace(",", " ").strip().partition(" ")
    return first, " ".join(rest.split())


def card_date(elements: Elements, code: str, year_first: bool, repairs: list[Repair]) -> CardDate:
    """The date of an element, with its repair reported by the element's letters and never by its digits."""
    found = read_date(elements.get(code, ""), year_first)
    if found.repair:
        repairs.append(Repair("date-form", f"element {code}: {found.repair}"))
    return found


def card_address(elements: Elements, repairs: list[Repair]) -> Address:
    """The holder's address, its postal code freed of the zeros and blanks that pad it."""
    street = " ".join(filter(None, (said(elements, "DAG"), said(elements, "DAH"))))
    city, state, postal = said(elements, "DAI"), said(elements, "DAJ").upper(), said(elements, "DAK").upper()
    if not state and (line := _TOWN_LINE.fullmatch(city.upper()) if len(city) < 90 else None):
        city, state, postal = line[1], line[2], postal or line[3]
        repairs.append(Repair("town-in-one", "city, state and postal code stood in one element"))
    return Address(street, city, state if _STATE.fullmatch(state) else "", _postal(postal))


def _postal(text: str) -> str:
    bare = text.replace(" ", "").replace("-", "")
    if _CANADIAN_POSTAL.match(bare):
        return bare[:6]
    if bare.isascii() and bare.isdigit() and len(bare) in (5, 9, 11):
        return bare[:5] if bare[5:9] in ("", "0000") else bare[:9]
    return ""
