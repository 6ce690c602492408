"""House layouts: where one bank puts serial, account and transaction code, keyed by its routing number.

Banks lay out the On-Us field as they like, so a house keeps exceptions it has learned. The table is TOML::

    [074098750]
    serial = "last 4"              # the last four digits left of the closing On-Us symbol
    account = "rest 8"             # what is left there, exactly eight digits

Places: ``first N``, ``last N`` (digits left of the closing symbol), ``lead`` (first group there), ``rest`` or
``rest N`` (what the others leave), ``right 1``, ``right 2`` (groups right of the closing symbol), ``auxiliary``
(serial only), ``none``. Defaults: serial ``none``, account ``rest``, transaction code ``none``.

>>> parse_layouts('[074098750]\\nserial = "last 4"')["074098750"].serial
'last 4'
>>> parse_layouts('[074098750]\\nserail = "last 4"')  # doctest: +ELLIPSIS
Traceback (most recent call last):
    ...
checkface.micr.layouts.LayoutError: Layout 074098750: expected serial, account, transaction_code, read 'serail'...
"""

from collections.abc import Mapping
from dataclasses import dataclass, fields

from checkface.micr.draft import Draft
from checkface.micr.notation import sum_holds
from checkface.patterns import lazily
from checkface.stricttoml import TomlError, loads

_PLACE = lazily(r"(?:first|last) (?:[1-9]|1[0-9])|right [12]|rest(?: (?:[1-9]|1[0-9]))?|lead|auxiliary|none")
_ALLOWED = {
    "serial": ("auxiliary", "first", "last", "lead", "rest", "right", "none"),
    "account": ("first", "last", "lead", "rest", "right", "none"),
    "transaction_code": ("first", "last", "lead", "right", "none"),
}
Range = tuple[int, int]


class LayoutError(ValueError):
    """A layout table that cannot be used; the message says where and what was expected."""


@dataclass(frozen=True, slots=True)
class Layout:
    """Places of the parts in the On-Us field of one bank, in the words of the module docstring."""

    serial: str = "none"
    account: str = "rest"
    transaction_code: str = "none"


BUILT_IN: Mapping[str, Layout] = {
    # A postal money order has a serial in its On-Us field and no account: TFM volume 2 part 4 chapter 7000;
    # the second number from memory.
    "000000204": Layout(serial="rest", account="none"),
    "000008002": Layout(serial="rest", account="none"),
}

TREASURY = "000000518"
"""Routing number of Treasury checks: no account; where their symbol, serial and agency code stand is not published."""


def parse_layouts(text: str) -> dict[str, Layout]:
    """Routing number to layout from TOML. Raises :class:`LayoutError`."""
    try:
        return layouts_from(loads(text))
    except TomlError as error:
        raise LayoutError(f"{str(error).replace('Expected TOML', 'Expected a layout table in TOML')}.") from error


def layouts_from(data: Mapping[str, object]) -> dict[str, Layout]:
    """Routing number to layout from the same table already parsed. Raises :class:`LayoutError`."""
    return {routing: _layout(routing, given) for routing, given in data.items()}


def _layout(routing: str, given: object) -> Layout:
    if not (len(routing) == 9 and routing.isascii() and routing.isdigit() and sum_holds(routing)):
        raise LayoutError(f"Expected a routing number of nine digits that passes its sum, read {routing[:40]!r}.")
    names = [field.name for field in fields(Layout)]
    if not isinstance(given, dict):
        raise LayoutError(f"Layout {routing}: expected a section with {', '.join(names)}, read {repr(given)[:40]}.")
    for key, place in given.items():
        if key not in names:
            import difflib

            near = difflib.get_close_matches(key[:40], names, 1, 0.0)[0]
            raise LayoutError(f"Layout {routing}: expected {', '.join(names)}, read {key[:40]!r}, nearest is {near!r}.")
        if not (isinstance(place, str) and _PLACE.fullmatch(place) and place.split()[0] in _ALLOWED[key]):
            words = ", ".join(_ALLOWED[key])
            raise LayoutError(f"Layout {routing}, {key}: expected a place out of {words}, read {repr(place)[:40]}.")
    layout = Layout(**given)
    if layout.account.startswith("rest") and layout.serial.startswith("rest"):
        raise LayoutError(f"Layout {routing}: expected one part that takes the rest, read two.")
    return layout


def place(draft: Draft, layout: Layout, start: int, end: int) -> bool:
    """Read the On-Us field between *start* and *end* by *layout*; False, with a fault, if it is not laid out so."""
    start, end = draft.trim(start, end)
    last = draft.line.rfind("O", start, end)
    body = _Body(draft, start, max(last, start))
    tail = draft.groups(last + 1, end) if last >= 0 else []
    parts: dict[str, Range | None] = {}
    wanted = {"serial": layout.serial, "transaction_code": layout.transaction_code, "account": layout.account}
    claimed = set()
    try:
        for name, words in sorted(wanted.items(), key=lambda item: item[1].startswith("rest")):
            kind, _, number = words.partition(" ")
            if kind == "right":
                parts[name] = tail[int(number) - 1]
                claimed.add(number)
            elif kind not in ("none", "auxiliary"):
                parts[name] = body.take(kind, int(number or 0))
        fits = last >= 0 and body.empty and len(claimed) == len(tail)
    except LookupError:
        fits = False
    if not fits:
        draft.fault("micr-layout-unlike", start, end, "the layout the house keeps for this bank", "another")
        return False
    for name, part in parts.items():
        if part:
            draft.place(name, *part)
            draft.values[name] = draft.digits(*part)
    draft.notes.append("fields placed by the layout kept for this bank")
    return True


class _Body:
    """The digits left of the closing On-Us symbol, taken away part by part."""

    def __init__(self, draft: Draft, start: int, end: int) -> None:
        self._at = [at for at in range(start, end) if draft.line[at] not in " DO"]

    @property
    def empty(self) -> bool:
        return not self._at

    def take(self, kind: str, number: int) -> Range:
        """Cut a part off; LookupError if it is not there."""
        at = self._at
        if kind == "rest":
            size = number or len(at)
            part, self._at = at, []
        elif kind == "last":
            size, part, self._at = number, at[-number:], at[:-number]
        else:
            size = number
            if kind == "lead":
                size = next((end for end in range(1, len(at)) if at[end] != at[end - 1] + 1), len(at))
            part, self._at = at[:size], at[size:]
        if not part or len(part) != size:
            raise LookupError(kind)
        return part[0], part[-1] + 1
