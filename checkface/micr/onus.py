"""The On-Us field: account, serial number and transaction code in the arrangement each bank chose.

No standard orders the field (ASC X9 TR 100-2013 lets the bank choose), so the reader lists every arrangement the
field allows, strikes out those the printed check number contradicts, and gives the values on which the rest agree.
What they disagree on stays an :class:`~checkface.micr.line.Ambiguity`.

>>> from checkface.micr import read
>>> read("⑆031097765⑆ 1043⑈ 45601122⑈").serial, read("⑆031097765⑆ 45601122⑈ 1043⑈").serial
('1043', '1043')
>>> glued = "⑆074098750⑆ 456011221043⑈"
>>> print(read(glued).serial, read(glued, printed_serial="1043").serial)
None 1043
>>> read(glued).ambiguities[1].reason
'no serial stands apart; it may be part of the account digits'
>>> print(read("⑆031097765⑆ 45601122").faults[0].message)
Expected an On-Us symbol right of the account number, read none.
"""

from typing import NamedTuple

from checkface.micr.draft import Draft, count
from checkface.micr.fields import cells
from checkface.patterns import lazily

Range = tuple[int, int]
_SYMBOLS = lazily("[TAOD]")
_GLUED = "no serial stands apart; it may be part of the account digits"
_USUAL = "the usual arrangement is not the only one the groups allow"
_ORDER = "the order of the groups is not settled by the line alone"


class Arrangement(NamedTuple):
    """One way to lay the field out; ``usual`` marks the one most banks mean."""

    account: Range | None
    serial: Range | None = None
    transaction_code: Range | None = None
    usual: bool = False


def read(draft: Draft, start: int, end: int, printed: str) -> None:
    """Read the On-Us field between *start* and *end*; *printed* is the printed number without leading zeros."""
    start, end = draft.trim(start, end)
    if start == end:
        return
    if cells(draft.line[start:end]) > 20:
        read = count(cells(draft.line[start:end]), "character")
        draft.fault("micr-field-too-long", start, end, "at most 20 characters in the On-Us field", read)
    last = draft.line.rfind("O", start, end)
    if last < 0:
        expected = "an On-Us symbol right of the account number"
        draft.fault("micr-on-us-missing", start, end, expected, "none")
        draft.doubt("account", "no On-Us symbol closes the account number")
        return
    segments = _segments(draft, start, last)
    tail = draft.groups(last + 1, end)
    if not segments:
        expected = "an On-Us symbol right of the account number"
        draft.fault("micr-on-us-unclosed", last, last + 1, expected, "one left of it only")
        draft.doubt("account", "no On-Us symbol closes the account number")
        return
    if draft.line.count("O", start, last) + 1 - (draft.line[start] == "O") != len(segments) or len(segments) > 2:
        symbols = count(draft.line.count("O", start, end), "On-Us symbol")
        expected = "at most one On-Us symbol before the one closing the account"
        draft.fault("micr-on-us-symbols", start, end, expected, symbols)
    if len(segments) > 2 or len(tail) > 2:
        draft.doubt("account", "more groups than an On-Us field holds")
        draft.doubt("serial", "more groups than an On-Us field holds")
        return
    options = _closed(draft, segments, tail) if len(segments) == 2 else _open(draft, segments[0], tail)
    _settle(draft, options, printed)


def _segments(draft: Draft, start: int, last: int) -> list[Range]:
    """The parts between On-Us symbols up to the last one, blank ones left out."""
    found = []
    while start <= last:
        end = draft.line.index("O", start)
        part = draft.trim(start, end)
        if part[0] < part[1]:
            found.append(part)
        start = end + 1
    return found


def _open(draft: Draft, body: Range, tail: list[Range]) -> list[Arrangement]:
    """Arrangements with one part left of the closing symbol."""
    if draft.serial_elsewhere:
        if not tail:
            return _beside_another_serial(draft, body, None)
        if len(tail) == 1 and _size(tail[0]) > 6:
            return [Arrangement(body, None, tail[0]), Arrangement(tail[0])]
        return (
            _beside_another_serial(draft, body, tail[0])
            if len(tail) == 1
            else [Arrangement(body, None, code) for code in tail]
        )
    if not tail or (len(tail) == 1 and _size(tail[0]) <= 2):
        code = tail[0] if tail else None
        return _leading(draft, body, code)
    if len(tail) == 1:
        serial = tail[0]
        if _like_serial(draft, serial) and _size(serial) < _weight(draft, body):
            return [Arrangement(body, serial)]
        return [Arrangement(body, serial), Arrangement(serial, body)]
    first, second = tail
    long = [group for group in tail if _size(group) >= max(7, _weight(draft, body))]
    options = [Arrangement(body, first, second), Arrangement(body, second, first)]
    return options + [Arrangement(group, body) for group in long]


def _beside_another_serial(draft: Draft, body: Range, code: Range | None) -> list[Arrangement]:
    """Arrangements of one part while the auxiliary field holds the serial: an account may have blanks, and a short
    group before it may be something else, a branch or the serial once more."""
    whole, groups = Arrangement(body, None, code), draft.groups(*body)
    if draft.country != "US" or len(groups) < 2:
        return [whole]
    lead, rest = groups[0], (groups[1][0], body[1])
    if not _like_serial(draft, lead) or _weight(draft, rest) <= _size(lead):
        return [whole]
    return [whole._replace(usual=True), Arrangement(rest, None, code)]


def _leading(draft: Draft, body: Range, code: Range | None) -> list[Arrangement]:
    """Arrangements when no serial can stand right of the account: it may lead, be glued on, or be absent."""
    whole = Arrangement(body, None, code)
    line = draft.line
    groups = draft.groups(*body)
    dashes = line.count("D", *body)
    if len(groups) > 1:
        lead, rest = groups[0], (groups[1][0], body[1])
        if _like_serial(draft, lead) and _weight(draft, rest) > _size(lead):
            lead_usual = code is None  # what stands right of the account claims the blanks left of it for the account
            return [Arrangement(rest, lead, code, usual=lead_usual), whole._replace(usual=not lead_usual)]
        return [whole]
    if dashes == 1:
        at = line.index("D", *body)
        lead, rest = (body[0], at), (at + 1, body[1])
        if _like_serial(draft, lead):
            return [Arrangement(rest, lead, code), whole]
    if code and not dashes:  # a short group right of the account is rarely a serial
        return [whole._replace(usual=True), Arrangement(body, code)]
    return [whole]


def _closed(draft: Draft, segments: list[Range], tail: list[Range]) -> list[Arrangement]:
    """Arrangements with a leading part closed by its own On-Us symbol."""
    lead, body = segments
    if _serial_closed(draft, lead, body, tail):
        return [Arrangement(lead, body, tail[0] if tail else None)]
    if draft.serial_elsewhere or len(tail) > 1 or (tail and _size(tail[0]) > 2):
        return [Arrangement(body, lead), Arrangement(lead, None, body), Arrangement((lead[0], body[1]))]
    code = tail[0] if tail else None
    # An On-Us symbol inside an account is likelier a misread dash or digit, unless a blank follows it as printed.
    apart = draft.line[body[0] - 1] == " " or not set(" D") & set(draft.line.strip(" "))
    if apart and _size(lead) <= 2 and code is None:
        return [Arrangement(body, None, lead), Arrangement(body, lead)]
    account_first = _size(lead) > 4 and " " in draft.line[slice(*body)]  # then a code and the serial may follow it
    if apart and _like_serial(draft, lead) and _weight(draft, body) > _size(lead) and not account_first:
        return [Arrangement(body, lead, code)]
    around = [Arrangement(body, lead, code), Arrangement((lead[0], body[1]), None, code)]
    if " " in draft.line[slice(*body)]:  # two groups are not one serial
        return around
    return [around[0], Arrangement(lead, body, code), around[1]]


def _serial_closed(draft: Draft, account: Range, serial: Range, tail: list[Range]) -> bool:
    """The serial right of the account has an On-Us symbol behind it: a blank sets it off, and the account is one group
    that no serial can be."""
    if draft.serial_elsewhere or draft.line[serial[0] - 1] != " " or len(tail) > 1 or (tail and _size(tail[0]) > 2):
        return False
    whole = " " not in draft.line[slice(*account)] + draft.line[slice(*serial)] and _weight(draft, account) >= 7
    return whole and _like_serial(draft, serial) and not _like_serial(draft, account) and _size(serial) <= 6


def _size(part: Range) -> int:
    return part[1] - part[0]


def _weight(draft: Draft, part: Range) -> int:
    """Characters other than blanks and dashes."""
    return len(draft.line[slice(*part)].replace(" ", "").replace("D", ""))


def _like_serial(draft: Draft, part: Range) -> bool:
    """Three to six digits, or up to ten when zeros fill the field."""
    text = draft.line[slice(*part)]
    return "D" not in text and 3 <= len(text) <= 10 and len(text.lstrip("0")) <= 6


def _settle(draft: Draft, options: list[Arrangement], printed: str) -> None:
    """Take what the arrangements agree on, with the printed number as evidence, and doubt the rest."""
    if printed and not draft.serial_elsewhere:
        options = _evidence(draft, options, printed)
    chosen = next((option for option in options if option.usual), None)
    for name in ("account", "serial", "transaction_code"):
        parts = list(dict.fromkeys(getattr(option, name) for option in options))
        if len(parts) > 1:
            values = [draft.digits(*part) for part in parts if part]
            draft.doubt(name, _USUAL if chosen else _ORDER, *(value for value in values if value))
        part = getattr(chosen, name) if chosen else parts[0] if len(parts) == 1 else None
        if part:
            draft.place(name, *part)
            draft.values[name] = draft.digits(*part)
    _dashes(draft)
    taken = chosen or (options[0] if len(options) == 1 else None)
    if taken and taken.account and not taken.serial and not draft.serial_elsewhere:
        _undivided(draft, taken.account)


def _undivided(draft: Draft, account: Range) -> None:
    """Doubt an account beside which no serial stands; several dashes show that it is whole."""
    if draft.line.count("D", *account) >= 2:
        return
    doubted = {ambiguity.field for ambiguity in draft.ambiguities}
    digits = draft.digits(*account)
    if "account" not in doubted:
        draft.doubt("account", _GLUED, *([digits] if digits else ()))
    if "serial" not in doubted:
        draft.doubt("serial", _GLUED)


def _dashes(draft: Draft) -> None:
    """Strike an account whose dashes do not each stand between two digits."""
    for name, start, end in draft.places:
        text = f" {draft.line[start:end]} "
        if name == "account" and any(pair in text for pair in (" D", "D ", "DD")):
            draft.values["account"] = None
            expected = "every dash of the account between two digits"
            draft.fault("micr-account-malformed", start, end, expected, "a dash beside a blank, a dash or an edge")


def _evidence(draft: Draft, options: list[Arrangement], printed: str) -> list[Arrangement]:
    """The arrangements that the printed number leaves, or adds where it stands inside the account instead."""
    first = options[0]
    proven = [option for option in options if option.serial and _number(draft, option.serial) == printed]
    if proven == options:
        return options
    if not proven and len(options) == 1 and first.serial:
        code = first.serial if first.transaction_code is None else first.transaction_code
        inside = [Arrangement(first.account, None, code)]
        if first.account:
            inside += _leading(draft, first.account, code)
        found = [option for option in inside if option.serial and _number(draft, option.serial) == printed]
        return options + (found or _glued(draft, inside, printed))
    proven = proven or _glued(draft, options, printed)
    if proven:
        settled = "settled" if len(proven) == 1 else "narrowed"
        draft.notes.append(f"serial {settled} by the printed number")
    return proven or options


def _number(draft: Draft, part: Range) -> str | None:
    digits = draft.digits(*part)
    return digits.lstrip("0") if digits else None


def _glued(draft: Draft, options: list[Arrangement], printed: str) -> list[Arrangement]:
    """Splits of one undivided account that leave the printed number at its end or its start."""
    whole = next((option for option in options if option.account and option.serial is None), None)
    if whole is None or whole.account is None or len(printed) < 3:
        return []
    start, end = whole.account
    text = draft.line[start:end]
    apart = _SYMBOLS.sub(" ", draft.line).split()
    if not text.isdigit() or any(group.lstrip("0") == printed for group in apart):
        return []  # what stands apart is not also part of the account
    cuts = []
    filled = len(text) - len(printed)
    if text.endswith(printed):
        while filled >= 4:
            cuts.append(whole._replace(account=(start, start + filled), serial=(start + filled, end)))
            filled -= 1
            if text[filled] != "0":
                break
    taken = len(text) - len(text.lstrip("0"))
    if text.startswith(printed, taken) and len(text) - taken - len(printed) >= 4:
        at = start + taken + len(printed)
        cuts.append(whole._replace(account=(at, end), serial=(start, at)))
    return cuts
