"""Raw lines as devices, recognition programs and people deliver them, each with the truth about the check.

Nothing here comes from checkface. Layouts: ASC X9 TR 100-2013 and the On-Us arrangements that banks choose; notations:
Unicode, ISO 2033, UnifiedPOS and the habits of fonts and programs; framing: control characters of ISO 646. Which marks,
words and statuses readers send is common practice.
"""

from __future__ import annotations

import random
from dataclasses import dataclass

from stdnum.us.rtn import calc_check_digit

NOTATIONS = {
    "unicode": "⑆⑇⑈⑉", "iso": ":;<=", "pos": "tao-", "letters": "ABCD", "small letters": "abcd", "toad": "TAOD",
    "toad, hyphen": "TAO-", "small toad": "taod", "tuad": "TAUD", "small tuad": "taud", "tu$": "T$U-", "to$": "T$OD",
    "small to$": "t$o-", "dbc": "dbc-", "punctuation": "#$%'", "brackets": "[]\"'", "braces": "{}[-", "quotes": "'`\"-",
}  # fmt: skip
"""Transit, amount, On-Us and dash of each set."""

LAYOUTS = {
    # sure: the line settles account and serial by itself
    "business": "OsO TrT aO",
    "business, dashes": "OsO TrT dO",
    "business, code": "OsO TrT aO c",
    "business, EPC": "OsO eTrT aO",
    "personal": "TrT aO s",
    "personal, EPC": "eTrT aO s",
    "closed serial leads": "TrT sO aO",
    "On-Us on both sides": "TrTOaO s",
    "dashed account": "TrT dO s",
    # open: only the printed number or a house layout settles them
    "serial leads": "TrT s aO",
    "serial leads, dash": "TrT sDaO",
    "serial and code": "TrT aO s c",
    "code and serial": "TrT aO c s",
    "serial glued": "TrT asO",
    "blanks in the account": "TrT bO s",
}
FRAMES = {
    "none": ("", ""), "STX ETX": ("\x02", "\x03"), "STX ETX CR": ("\x02", "\x03\r"), "line end": ("", "\r\n"),
    "ESC": ("\x1b", "\r"), "NUL": ("\x00", "\x00\x00"), "FS": ("\x1c", "\x1c"), "BOM": ("\ufeff", ""),
    "status": ("", "/00"), "status, blank": ("", " /00\r"), "status before": ("/00 ", ""), "word": ("MICR ", ""),
    "word, colon": ("LINE: ", "\r"), "letter": ("C ", ""), "stray dash": ("", "-"), "blanks": ("  ", "   "),
}  # fmt: skip
MARKS = "*?!@#~^%&$|+.x_"
FLAWS = ("none", "none", "none", "none", "none", "mark in the account", "mark in the routing number", "mark in the serial",
         "two marks", "foreign character", "On-Us behind the serial", "underscores")  # fmt: skip


@dataclass(frozen=True)
class RawLine:
    """A line as it was delivered, what is true of the check, and how the line came about."""

    text: str
    routing: str
    account: str
    serial: str
    cents: int | None
    notation: str
    layout: str
    frame: str
    flaw: str


def digits(rng: random.Random, least: int, most: int) -> str:
    return "".join(rng.choices("0123456789", k=rng.randint(least, most)))


def raw_line(rng: random.Random) -> RawLine:
    """One line of any kind."""
    notation, layout, frame = (rng.choice(list(table)) for table in (NOTATIONS, LAYOUTS, FRAMES))
    flaw = rng.choice(FLAWS)
    eight = f"{rng.choice([*range(1, 13), *range(21, 33)]):02}" + digits(rng, 6, 6)
    account, serial = digits(rng, 7, 10), str(rng.randint(101, 9999))
    printed = {
        "r": eight + calc_check_digit(eight),
        "a": account,
        "b": f"{account[:3]} {account[3:]}",
        "d": f"{account[:3]}D{account[3:5]}D{account[5:]}",
        "s": serial.zfill(rng.choice([3, 3, 4, 5, 6])),
        "c": digits(rng, 2, 2),
        "e": rng.choice("0134678"),
    }
    cents = rng.randint(1, 99999) if rng.random() < 0.15 else None
    places: dict[str, tuple[int, int]] = {}
    line = ""
    for char in LAYOUTS[layout]:
        part = printed.get(char, char)
        places[char] = (len(line), len(line) + len(part))
        line += part
    line += "" if cents is None else f" A{cents:010}A"
    if flaw != "none":
        marks = [char for char in MARKS if char not in NOTATIONS[notation]]  # no reader means two things by one
        line, flaw = _flawed(rng, line, places, flaw, marks)
    if rng.random() < 0.15 and flaw == "none" and layout not in ("serial leads", "blanks in the account"):
        line = line.replace(" ", "") if layout not in ("serial and code", "code and serial") else line
    written = line.translate(str.maketrans("TAOD", NOTATIONS[notation]))
    before, behind = FRAMES[frame]
    return RawLine(before + written + behind, printed["r"], account, printed["s"], cents, notation, layout, frame, flaw)


def _flawed(
    rng: random.Random, line: str, places: dict[str, tuple[int, int]], flaw: str, marks: list[str]
) -> tuple[str, str]:
    account = next(places[name] for name in "abd" if name in places)
    if flaw == "On-Us behind the serial":
        if line.endswith(line[slice(*places["s"])]):
            return line + "O", flaw
        return line, "none"
    if flaw == "underscores":
        return line.replace(" ", "_"), flaw
    where = {
        "mark in the account": [account], "mark in the routing number": [places["r"]],
        "mark in the serial": [places["s"]], "two marks": [account, places["s"]], "foreign character": [account],
    }[flaw]  # fmt: skip
    mark = rng.choice(marks if flaw != "foreign character" else "éß§©Qz€\\")
    for start, end in where:
        at = rng.choice([at for at in range(start, end) if line[at].isdigit()])
        line = line[:at] + mark + line[at + 1 :]
    return line, flaw
