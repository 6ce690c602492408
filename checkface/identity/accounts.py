"""How the title of an account says who owns it and who acts for whom: abbreviations of the trade, read off one line.

Sources: Uniform Transfers to Minors Act, section 9 (custodian for a minor); Uniform Probate Code, sections 6-201 to
6-212 (multiple-party accounts and payment on death); 20 CFR 404.2001 (representative payees). The abbreviations are
common practice.

>>> [(part.capacity, part.joined) for part in parts_of("MICHAEL SAMPLE & JANE SAMPLE TTEES".split())]
[('trustee', True), ('trustee', False)]
>>> [part.capacity for part in parts_of("JANE SAMPLE POD ADA SAMPLE".split())]
['', 'beneficiary']
>>> [part.capacity for part in parts_of("JANE SAMPLE BY MICHAEL SAMPLE POA".split())]
['', 'attorney']
"""

from collections.abc import Sequence
from typing import NamedTuple

from checkface.patterns import lazily

NO_OWNER = frozenset({"beneficiary", "care of", "estate"})
"""Capacities of a person whom the account names and who may not sign for it."""

NO_PERSON = frozenset({
    "AGENCY", "ASSN", "ASSOC", "ASSOCIATES", "ASSOCIATION", "AUTO", "BAKERY", "BANK", "BOARD", "CAFE", "CENTER",
    "CHURCH", "CITY", "CLINIC", "CLUB", "CO", "COLLEGE", "COMMITTEE", "COMPANY", "CONSTRUCTION", "CONSULTING",
    "CONTRACTING", "CONTRACTORS", "CORP", "CORPORATION", "COUNCIL", "COUNTY", "DAIRY", "DBA", "DELI", "DEPARTMENT",
    "DEPT", "DISTRICT", "ELECTRIC", "ENTERPRISES", "ESTATE", "EXCAVATING", "FARM", "FARMS", "FOUNDATION", "FUND",
    "GARAGE", "GROCERY", "GROUP", "GUILD", "HARDWARE", "HEATING", "HOLDINGS", "HOSPITAL", "INC", "INCORPORATED",
    "INDUSTRIES", "INSURANCE", "LANDSCAPING", "LIBRARY", "LLC", "LLP", "LODGE", "LP", "LTD", "LUMBER", "MASONRY",
    "MINISTRIES", "MINISTRY", "MOTORS", "ORCHARD", "PA", "PAINTING", "PARTNERS", "PARTNERSHIP", "PAYROLL", "PC",
    "PHARMACY", "PLLC", "PLUMBING", "PROPERTIES", "PTA", "RANCH", "REALTOR", "REALTY", "RENTALS", "REPAIR",
    "RESTAURANT", "ROOFING", "SALON", "SCHOOL", "SERVICE", "SERVICES", "SHOP", "SOCIETY", "STATE", "STORE", "STUDIO",
    "SUPPLY", "TOWNSHIP", "TRADING", "TREASURER", "TREASURY", "TRIBE", "TRUCKING", "TRUST", "UNION", "UNIVERSITY",
    "VENTURES", "VILLAGE", "WELDING", "WORKS", "ABARROTES", "ASOCIACION", "CARNICERIA", "CLINICA", "CONSTRUCCIONES",
    "ESCUELA", "FARMACIA", "FERRETERIA", "FUNDACION", "IGLESIA", "INVERSIONES", "LAVANDERIA", "MINISTERIO",
    "MINISTERIOS", "MUNICIPIO", "PANADERIA", "PARROQUIA", "RESTAURANTE", "SERVICIOS", "TAQUERIA",
})  # fmt: skip
"""Words of a drawer that is a business, a trust or a public body. As somebody's family name they are a name."""

LABELS = frozenset({
    "BIRTH", "BORN", "CDL", "CELL", "CIF", "CUSTOMER", "DATE", "DL", "DLN", "DOB", "EST", "EXP", "FAX", "HOME", "ID",
    "LIC", "LICENCE", "LICENSE", "MEMBER", "MOBILE", "NO", "NUM", "NUMBER", "OF", "OLN", "PH", "PHONE", "SINCE", "SS",
    "SSN", "TEL", "TELEPHONE", "WORK",
})  # fmt: skip
"""Words that say what number follows."""

_STREETS = (
    "ST|STREET|AVE|AVENUE|RD|ROAD|BLVD|BOULEVARD|DR|DRIVE|LN|LANE|CT|COURT|PL|PLACE|WAY|TER|TERRACE|CIR|CIRCLE|PKWY|"
    "PARKWAY|HWY|HIGHWAY|PIKE|TRL|TRAIL|SQ|SQUARE|LOOP|ROW|BROADWAY|CALLE|AVENIDA"
)
ADDRESS = lazily(
    rf"^[NSEW]?[0-9]\S* (?:\S+ )*(?:{_STREETS})\b|\bP ?O (?:BOX|DRAWER)\b|\bBOX [0-9]"
    r"|\b(?:APT|SUITE|STE|UNIT|ROOM|RR) \S*[0-9]|^CALLE "
)
"""A line, in capitals with one blank between words, that is of an address and names no one."""

_JOINT = r"&|\+|;|/|AND/OR|AND|OR|Y/O|Y(?= [^ &]{2,} [^ &]{2,})"
_OWNERSHIP = (
    r"JTWROS|JTROS|JT(?: TEN(?:ANTS)?)?(?: WROS)?|WROS|TEN COM|TEN ENT|TENCOM|TENENT|TIC|TBE|"
    r"COMM(?:UNITY)? PROP(?:ERTY)?|(?:AS )?JOINT TENANTS?(?: WITH RIGHTS? OF SURVIVORSHIP)?|"
    r"(?:AS )?TENANTS (?:IN COMMON|BY (?:THE )?ENTIRET(?:Y|IES))|"
    r"(?:(?:HOUSEHOLD|CHECKING|SPECIAL|JOINT|PERSONAL) )?(?:ACCOUNT|ACCT)"
)
_CAPACITIES = {
    "attorney": r"POA|AIF|(?:AS )?(?:ATTORNEY|ATTY)[ -]IN[ -]FACT|POWER OF ATTORNEY|(?:AS )?AGENT|ATTORNEY(?! AT)|ATTY|"
    r"FOR(?! (?:THE )?BENEFIT)",
    "business": r"DBA|DOING BUSINESS AS|TRADING AS|ATTORNEYS? AT LAW",
    "custodian": r"(?:AS )?CUST(?:ODIAN)?|CF",
    "executor": r"(?:CO-?)?EXECUT(?:OR|RIX)|EXEC|ADMINISTRAT(?:OR|RIX)|PERSONAL REP(?:RESENTATIVE)?",
    "guardian": r"(?:AS )?(?:CO-?)?GUARDIANS?|GDN|CONSERVATOR|CONS",
    "minor": r"A MINOR(?: CHILD)?|, MINOR",
    "payee": r"(?:AS )?REP(?:RESENTATIVE)? PAYEE",
    "trustee": r"(?:AS )?(?:SUCC(?:ESSOR)? )?(?:CO-?)?(?:TTEES?|TRUSTEES?|TR)",
}
_BEHIND = {
    "beneficiary": r"P ?O ?D|I ?T ?F|T ?O ?D|FBO|PAYABLE ON DEATH(?: TO)?|TRANSFER ON DEATH(?: TO)?|IN TRUST FOR|"
    r"BENEFICIARY|FOR (?:THE )?BENEFIT OF",
    "care_of": r"C/O|(?:IN )?CARE OF",
    "estate": r"(?:THE )?ESTATE OF",
    "by": "BY",
}
_INITIALS = frozenset({"Y", "TR", "CF", "UA"})  # as well, at the beginning of a name
_REST = r"UTMA|UGMA|UTD|UDT|UA|UTA|UNDER|DTD|DATED"
_MARK = lazily(
    rf"(?<!\S)(?:(?P<joint>{_JOINT})|(?P<ownership>{_OWNERSHIP})|(?P<rest>{_REST})|"
    + "|".join(f"(?P<{name}>{form})" for name, form in {**_CAPACITIES, **_BEHIND}.items())
    + r")(?P<acts_for> (?:FOR|OF))?(?!\S)"
)
BEGINS = lazily(
    r"(?:"
    + "|".join(_CAPACITIES[name] for name in ("attorney", "custodian", "executor", "guardian", "payee", "trustee"))
    + r")(?!\S)"
)
"""A capacity at the beginning of a line belongs to the person on the line above."""
_ACTS_ALONE = frozenset({"attorney", "executor", "trustee"})
"""Capacities whose account is not named after it: what follows without "for" is another who has it."""


class Part(NamedTuple):
    """The words of a line from ``start`` up to ``end``, between two marks.

    ``capacity`` is that of the persons in it: empty for an owner. ``joined`` is whether the next part stands beside it
    ("and"); ``unsure`` whether the mark may as well have been an initial.
    """

    start: int
    end: int
    capacity: str = ""
    joined: bool = False
    unsure: bool = False


def parts_of(words: Sequence[str]) -> list[Part]:
    """The parts of a line, its *words* in capitals, each with the capacity that its marks give it."""
    plain = " ".join(words)
    parts: list[Part] = []
    start, behind, group = 0, "", 0
    for mark in _MARK.finditer(plain):
        kind = next(name for name, found in mark.groupdict().items() if found is not None)
        first = plain.count(" ", 0, mark.start())
        named = any(word != "," for word in words[start:first])
        if not named and (kind == "ownership" or mark[0] in _INITIALS):
            continue  # initials at the beginning of a name
        if named:
            unsure = mark["joint"] == "Y" and first - start == 1
            parts.append(Part(start, first, behind, kind in ("joint", "ownership"), unsure))
        start = first + mark[0].count(" ") + 1
        if kind in ("joint", "ownership"):
            continue
        if kind in _CAPACITIES:
            for place in range(group if kind != "attorney" else max(group, len(parts) - 1), len(parts)):
                parts[place] = parts[place]._replace(capacity=parts[place].capacity or kind)
            behind = _behind(kind, bool(parts[group:]), mark["acts_for"] is not None or mark[0] == "FOR")
        elif kind == "rest":
            if mark[0] in ("UTMA", "UGMA") and not any(part.capacity for part in parts):
                parts = [part._replace(capacity="custodian") for part in parts]
            return parts
        else:
            behind = {"by": "attorney", "care_of": "care of"}.get(kind, kind)
        group = len(parts)
    if any(word != "," for word in words[start:]) and behind != "business":
        parts.append(Part(start, len(words), behind))
    return parts


def _behind(kind: str, named: bool, acts_for: bool) -> str:
    """The capacity of those behind the mark of a capacity: the one acted for, or another who has it."""
    if kind in ("business", "minor"):
        return kind if kind == "business" else ""
    if acts_for:
        return "" if kind == "attorney" else "beneficiary"
    return kind if kind in _ACTS_ALONE or not named else "beneficiary"
