"""Payloads for every version and issuer, and the named ways in which cards and scanners deform them.

Holders are invented; numbers are drawn from the published shape of the issuer. Nothing here uses the code under test.
"""

from __future__ import annotations

import random
import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from re import _parser

from checkface import tables

FAMILIES = [
    "SAMPLE",
    "O'BRIEN",
    "SMITH-JONES",
    "GARCIA LOPEZ",
    "MCDANIEL",
    "ADDAMS",
    "VAN DER BERG",
    "ÑUÑEZ",
    "NGUYEN",
    "DBALLOW",
]
GIVENS = ["MICHAEL", "JANE", "ANA", "D'ARCY", "LEE-ANN", "JOSÉ", "DACIA"]
MIDDLES = ["JOHN", "Q", "", "MARIE", "DEE"]


@dataclass(frozen=True)
class Holder:
    family: str
    given: str
    middle: str
    number: str
    birth: date
    issued: date
    expires: date
    iin: str
    state: str
    country: str
    version: int
    kind: str = "DL"
    year_first: bool = False

    def day(self, day: date) -> str:
        return day.strftime("%Y%m%d") if self.year_first else day.strftime("%m%d%Y")


def sample_of(pattern: str, rng: random.Random) -> str:
    """A text that the regular expression accepts, drawn from its parsed form."""

    def draw(parts) -> str:
        out = ""
        for op, value in parts:
            name = str(op)
            if name == "LITERAL":
                out += chr(value)
            elif name == "IN":
                op, chosen = rng.choice(value)
                out += chr(rng.randint(*chosen)) if str(op) == "RANGE" else chr(chosen)
            elif name == "MAX_REPEAT":
                low, high, inner = value
                out += "".join(draw(inner) for _ in range(rng.randint(low, high)))
            elif name == "SUBPATTERN":
                out += draw(value[3])
            elif name == "BRANCH":
                out += draw(rng.choice(value[1]))
            elif name not in {"AT", "ASSERT"}:
                raise NotImplementedError(name)
        return out

    parsed = _parser.parse(pattern)
    while not re.fullmatch(pattern, text := draw(parsed)):
        pass
    return text


def issuers() -> list[tuple[str, str, str]]:
    rows = tables.load("aamva_issuers").rows
    return [(row["iin"], row["code"], row["country"]) for row in rows if "memory" not in row["source"]]


def holder(iin: str, state: str, country: str, version: int, rng: random.Random) -> Holder:
    shapes = {row["state"]: row["pattern"] for row in tables.load("license_shapes").rows}
    pattern = shapes.get(state) or "[A-Z][0-9]{11}"
    birth = date(1940, 1, 1) + timedelta(days=rng.randrange(25_000))
    issued = date(2010, 1, 1) + timedelta(days=rng.randrange(5_000))
    return Holder(
        family=rng.choice(FAMILIES),
        given=rng.choice(GIVENS),
        middle=rng.choice(MIDDLES),
        number=sample_of(pattern, rng),
        birth=birth,
        issued=issued,
        expires=issued + timedelta(days=1_000 + rng.randrange(3_000)),
        iin=iin,
        state=state,
        country=country,
        version=version,
        kind=rng.choice(["DL", "ID", "EN"] if version >= 10 else ["DL", "ID"]),
        year_first=version == 1 or (version >= 3 and country == "CAN"),
    )


def elements(who: Holder) -> list[tuple[str, str]]:
    """The elements of the subfile in the standard's order for the version."""
    postal = "K1A0B1     " if who.country == "CAN" else "232690000  "
    address = [("DAG", "2300 WEST BROAD STREET"), ("DAI", "RICHMOND"), ("DAJ", who.state or "VA"), ("DAK", postal)]
    days = [("DBA", who.day(who.expires)), ("DBB", who.day(who.birth)), ("DBD", who.day(who.issued)), ("DBC", "1")]
    if who.version == 1:
        name = ("DAA", ",".join([who.family, who.given] + [who.middle] * bool(who.middle)))
        return [("DAQ", who.number), name, *address, ("DAY", "BRO"), *days]
    country = ("DCG", "CDN" if who.version == 2 and who.country == "CAN" else who.country)
    if who.version in (2, 3):
        given = ("DCT", ",".join([who.given] + [who.middle] * bool(who.middle)))
        return [
            ("DCA", "D"),
            ("DCS", who.family),
            given,
            *days,
            *address,
            ("DAQ", who.number),
            ("DCF", "DOC1"),
            country,
        ]
    flags = [("DDE", "N"), ("DAC", who.given), ("DDF", "N"), ("DAD", who.middle or "NONE"), ("DDG", "N")]
    last = [("DCF", "2424244747474786102204"), country, ("DDA", "F"), ("DDB", "06062018"), ("DDD", "0")]
    return [("DAQ", who.number), ("DCS", who.family), *flags, ("DCU", ""), ("DCA", "D"), *days, *address, *last]


def assemble(who: Holder, items: list[tuple[str, str]], extra: str = "ZVZVA01\r") -> str:
    body = who.kind + "\n".join(code + value for code, value in items) + "\r"
    parts = [(who.kind, body)] + ([(extra[:2], extra)] if extra else [])
    head = f"@\n\x1e\rANSI {who.iin}{who.version:02}" + ("" if who.version == 1 else "00") + f"{len(parts):02}"
    offset = len(head) + 10 * len(parts)
    for kind, text in parts:
        head += f"{kind}{offset:04}{len(text):04}"
        offset += len(text)
    return head + "".join(text for _, text in parts)


def payload(who: Holder) -> str:
    return assemble(who, elements(who))


def _rebuild(change: Callable[[Holder, list[tuple[str, str]], random.Random], list[tuple[str, str]]]):
    return lambda who, rng: assemble(who, change(who, elements(who), rng))


@dataclass(frozen=True)
class _text:  # noqa: N801
    """A deformation of the finished text, whatever it says."""

    change: Callable[[str], str]

    def __call__(self, who: Holder, rng: random.Random) -> str:
        return self.change(payload(who))


def _values(codes: str, change: Callable[[str], str]):
    wanted = set(codes.split())
    return _rebuild(lambda who, items, rng: [(c, change(v)) if c in wanted else (c, v) for c, v in items])


def _shuffled(who, items, rng):
    return rng.sample(items, len(items))


def _doubled(who, items, rng):
    return [item for item in items for _ in range(rng.randint(1, 2))]


def _with_empty(who, items, rng):
    return [*items, ("DCH", ""), ("DBN", ""), ("DDC", "")]


def _town_in_one(who, items, rng):
    kept = [(c, v) for c, v in items if c not in {"DAI", "DAJ", "DAK"}]
    return [*kept, ("DAI", f"RICHMOND {who.state or 'VA'} 23269")]


def _zeros_lost(who, items, rng):
    def short(value: str) -> str:
        day = date(int(value[:4]), int(value[4:6]), int(value[6:])) if who.year_first else None
        day = day or date(int(value[4:]), int(value[:2]), int(value[2:4]))
        return f"{day.month}{day.day}{day.year}"

    return [(c, short(v)) if c in {"DBA", "DBB", "DBD"} else (c, v) for c, v in items]


def _initial_in_given(who, items, rng):
    return [(c, v + " Q" if c == "DAC" else "" if c == "DAD" else v) for c, v in items]


def _separated(mark: str):
    def change(who, items, rng):
        def apart(value: str) -> str:
            cut = (4, 6) if who.year_first else (2, 4)
            return mark.join([value[: cut[0]], value[cut[0] : cut[1]], value[cut[1] :]])

        return [(c, apart(v)) if c in {"DBA", "DBB", "DBD"} else (c, v) for c, v in items]

    return _rebuild(change)


def _other_order(who, rng):
    return payload(replace(who, year_first=not who.year_first))


def _head(change: Callable[[str, Holder], str]):
    """Change the six (or four) digits after the issuer number."""

    def apply(who, rng):
        text = payload(who)
        end = 15 + (4 if who.version == 1 else 6)
        return text[:15] + change(text[15:end], who) + text[end:]

    return apply


def _offsets(entry: int, by: int):
    def apply(who, rng):
        text = payload(who)
        at = 15 + (4 if who.version == 1 else 6) + 10 * entry + 2
        return text[:at] + f"{int(text[at : at + 4]) + by:04}" + text[at + 4 :]

    return apply


def _on_a_stripe(who, rng):
    digits = "".join(char for char in who.number if char.isdigit())[:13] or "1"
    track_1 = f"%{who.state[:2] or 'VA'}RICHMOND^{plain(who.family)}${plain(who.given)}${plain(who.middle)}^2300 WEST BROAD STREET^?"
    return f"{track_1}\n;{who.iin}{digits}={who.expires:%y%m}{who.birth:%Y%m%d}=?"


def _tracks(who, width=False):
    """Tracks without sentinels; with *width*, the name fills its 35 characters and has no separator behind it."""
    digits = "".join(char for char in who.number if char.isdigit())[:13] or "1"
    name = f"{plain(who.family)}${plain(who.given)}${plain(who.middle)}"
    name = f"{name + 'X' * 35}"[:35] if width else name + "^"
    track_2 = f"{who.iin}{digits}={who.expires:%y%m}{who.birth:%Y%m%d}="
    return f"{who.state[:2] or 'VA'}RICHMOND^{name}2300 WEST BROAD STREET^\n{track_2}"


def plain(name):
    return "".join(c for c in unicodedata.normalize("NFKD", name) if not unicodedata.combining(c))


def _track_in_barcode(who, rng):
    text = payload(who)
    return text[: text.index(who.kind + "D")] + who.kind + _tracks(who) + "\r"


def _full_width(who, rng):
    return "%" + _tracks(who, width=True).replace("\n", "?;") + "?"


def _five_digits(who, rng):
    text, at = payload(who), rng.randrange(6)
    start = text.index(who.iin)
    return text[: start + at] + text[start + at + 1 :]


def _packed(*codes):
    """The separators before these elements are lost."""

    def apply(who, rng):
        text = payload(who)
        for code in codes:
            text = text.replace("\n" + code, code)
        return text

    return apply


def _some_breaks_lost(who, rng):
    text = payload(who)
    breaks = [place for place, char in enumerate(text) if char == "\n" and place > 40]
    lost = set(rng.sample(breaks, min(len(breaks), rng.randint(2, 5))))
    return "".join(char for place, char in enumerate(text) if place not in lost)


def _glued(who, items, rng):
    discriminator = dict(items).get("DCF", "")
    return [(c, v + discriminator) if c == "DAQ" else (c, v) for c, v in items]


def _given_first(who, items, rng):
    return [(c, ",".join([who.given, who.middle, who.family])) if c == "DAA" else (c, v) for c, v in items]


def _month_named(who, items, rng):
    return [(c, who.expires.strftime("%Y%b%d").upper()) if c == "DBA" else (c, v) for c, v in items]


def _bare_list(who, rng):
    return "\n".join(code + value for code, value in elements(who))


def _one_break_lost(who, rng):
    text = payload(who)
    breaks = [place for place, char in enumerate(text) if char == "\n" and place > 40]
    place = rng.choice(breaks)
    return text[:place] + text[place + 1 :]


def _cut(who, rng):
    text = payload(who)
    return text[: rng.randrange(45, len(text))]


def _wedge(text: str) -> str:
    return text.replace("\x1e", "^^").replace("\r", "^M").replace("\n", "^J")


DEFORMATIONS: dict[str, Callable[[Holder, random.Random], str]] = {
    "as the standard says": lambda who, rng: payload(who),
    "opening with line feed for return": _text(lambda text: text.replace("@\n\x1e\r", "@\n\x1e\n", 1)),
    "opening with two line feeds": _text(lambda text: text.replace("@\n\x1e\r", "@\n\n", 1)),
    "opening of @ and letters": _text(lambda text: text.replace("@\n\x1e\r", "@LSR", 1)),
    "white space before @": _text(lambda text: " \r\n\t" + text),
    "stray characters before the file type": _text(
        lambda text: text.replace("ANSI", "\x1d~ 0x", 1).replace("0x", "ANSI", 1)
    ),
    "file type AAMVA": _text(lambda text: text.replace("ANSI ", "AAMVA", 1)),
    "no blank after the file type": _text(lambda text: text.replace("ANSI ", "ANSI", 1)),
    "pipes for line feeds": _text(lambda text: text.replace("\n", "|")),
    "pipes for all control characters": _text(lambda text: re.sub("[\n\r\x1e]", "|", text)),
    "control characters typed as ^J": _text(_wedge),
    "control characters typed as Ctrl-J": _text(
        lambda text: text.replace("\x1e", "Ctrl-^").replace("\r", "Ctrl-M").replace("\n", "Ctrl-J")
    ),
    "escapes in angle brackets": _text(
        lambda text: text.replace("\n", "<LF>").replace("\x1e", "<RS>").replace("\r", "<CR>")
    ),
    "escapes with backslashes": _text(
        lambda text: text.replace("\n", "\\n").replace("\x1e", "\\x1e").replace("\r", "\\r")
    ),
    "control pictures": _text(lambda text: text.replace("\n", "␊").replace("\x1e", "␞").replace("\r", "␍")),
    "byte 0x90 after separators": _text(lambda text: text.replace("\n", "\n\x90")),
    "returns for line feeds": _text(lambda text: text.replace("\n", "\r")),
    "return and line feed": _text(lambda text: text.replace("\n", "\r\n")),
    "blank after separators": _text(lambda text: text.replace("\n", "\n ")),
    "caps lock": _text(lambda text: text.swapcase()),
    "last return lost": _text(lambda text: text.rstrip("\r")),
    "jurisdiction version missing": _head(lambda digits, who: digits[:2] + digits[-2:]),
    "entry count missing": _head(lambda digits, who: digits[:-2]),
    "only the version": _head(lambda digits, who: digits[:2]),
    "version from the future": _head(lambda digits, who: ("37" + digits[2:]) if who.version > 4 else digits),
    "first offset wrong": _offsets(0, 7),
    "second offset wrong": _offsets(1, -3),
    "type at the start missing": lambda who, rng: (
        payload(who).replace(who.kind + "DAQ", "DAQ").replace(who.kind + "DCA", "DCA")
    ),
    "empty first record": lambda who, rng: re.sub(f"({who.kind})(DAQ|DCA)", r"\1\n\2", payload(who)),
    "header missing": lambda who, rng: payload(who)[payload(who).index(who.kind + "D") :],
    "elements in any order": _rebuild(_shuffled),
    "elements doubled": _rebuild(_doubled),
    "elements empty": _rebuild(_with_empty),
    "dates with hyphens": _separated("-"),
    "dates with slashes": _separated("/"),
    "dates without zeros": _rebuild(_zeros_lost),
    "dates in the other order": _other_order,
    "letter M after dates": _values("DBA DBB DBD", lambda value: value + "M"),
    "issue date NONE": _values("DBD", lambda value: "NONE"),
    "town in one element": _rebuild(_town_in_one),
    "postal code without padding": _values("DAK", str.rstrip),
    "postal code with zeros": _values("DAK", lambda value: value.strip() + "0000"),
    "middle initial in given name": _rebuild(_initial_in_given),
    "blanks round values": _values("DAQ DCS DAC DAD DAA DAI", lambda value: f" {value}  "),
    "social security number inside": _rebuild(
        lambda who, items, rng: [*items, ("DBK", "123456789"), ("DBM", "123456789")]
    ),
    "stripe layout": _on_a_stripe,
    "tracks without sentinels": lambda who, rng: _tracks(who),
    "track without sentinels in a barcode": _track_in_barcode,
    "stripe name of full width": _full_width,
    "issuer number of five digits": _five_digits,
    "packed dates": _packed("DBB", "DBD", "DBC"),
    "packed flags": _packed("DAC", "DAD", "DDG"),
    "packed addresses": _packed("DAI", "DAJ", "DAK"),
    "number glued to its discriminator": _rebuild(_glued),
    "number packed with its discriminator": _rebuild(
        lambda who, items, rng: [
            (c, v + "DCF" + dict(items).get("DCF", "")) if c == "DAQ" else (c, v) for c, v in items if c != "DCF"
        ]
    ),
    "given name first": _rebuild(_given_first),
    "expiry with its month's name": _rebuild(_month_named),
    "element list alone": _bare_list,
    "semicolons for separators": _text(lambda text: re.sub("[\n\r\x1e]", ";", text)),
    "tabs for line feeds": _text(lambda text: text.replace("\n", "\t")),
    "blanks for separators": _text(lambda text: re.sub("[\n\r\x1e]", " ", text)),
    "some separators lost": _some_breaks_lost,
    "one separator lost": _one_break_lost,
    "cut short": _cut,
    "separators lost": _text(lambda text: re.sub("[\n\r\x1e]", "", text)),
}
HOPELESS = {
    "one separator lost", "some separators lost", "cut short", "separators lost", "blanks for separators", "given name first",
    "packed flags", "packed addresses",
}  # fmt: skip
"""Deformations that lose what is needed: they may be refused, but never read wrongly in silence."""
TEXTUAL = {name: deform.change for name, deform in DEFORMATIONS.items() if isinstance(deform, _text)}
