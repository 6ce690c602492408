"""A payload whose separators were all dropped, as scanners do that type no control characters.

There is no safe way to cut such a run in general. It is cut only when the letters of the elements leave one way
alone: every element the version makes mandatory is spelled there once, every value fits its element, and all
ways of cutting agree on what is kept. Otherwise the payload is refused, as for a holder called MADDEN, whose
name spells the element DDE.

>>> run = "DAQT64235789DCSSAMPLEDDENDACMICHAELDDFNDADJOHNDDGNDBD06062019DBB06061986DBA12102024"
>>> run += "DAG2300 WEST BROAD STREETDAIRICHMONDDAJVADAK232690000  DCF24242DCGUSADDAFDDD1"
>>> found = cut_run(run, 10)
>>> found["DCS"], found["DBA"], found["DAK"]
('SAMPLE', '12102024', '232690000  ')
>>> cut_run(run.replace("SAMPLE", "MADDEN"), 10) is None
True
>>> cut_run(run.replace("SAMPLE", "MCDAHL"), 10) is None    # DAH: a second line of the address, or the name
True
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from checkface.patterns import lazily

_MOST_STEPS = 3_000
_LONGEST_VALUE = 40
_NAME = r"[A-Z\u00c0-\u00dea-z\u00df-\u00ff' ,.-]{1,40}"
_DATE, _FLAG = r"[0-9]{8}", "[TNU]"
_FORMS = {
    "DAA": _NAME, "DCS": _NAME, "DAC": _NAME, "DAD": _NAME, "DCT": _NAME,
    "DDE": _FLAG, "DDF": _FLAG, "DDG": _FLAG,
    "DCU": r"(?:JR|SR|[1-5](?:ST|ND|RD|TH)|[IV]{1,4})?",
    "DAQ": r"[A-Z0-9*][A-Z0-9* -]{0,24}",
    "DBA": _DATE, "DBB": _DATE, "DBD": _DATE + "|NONE",
    "DDB": _DATE, "DDC": _DATE, "DDH": _DATE, "DDI": _DATE, "DDJ": _DATE,
    "DBC": "[0-9MF]", "DDA": "[FMN]", "DDD": "[01]", "DDK": "[01]", "DDL": "[01]",
    "DAU": r"[0-9]{3} ?(?:IN|CM|in|cm)", "DAW": "[0-9]{1,3}", "DAX": "[0-9]{1,3}", "DCE": "[0-9]",
    "DAY": "[A-Z]{3}", "DAZ": "[A-Z]{3}", "DCL": "[A-Z]{1,3}",
    "DCA": "[A-Z0-9 ]{0,6}", "DCB": "[A-Z0-9 ,]{0,12}", "DCD": "[A-Z0-9 ]{0,5}",
    "DAG": r"[A-Z0-9 .,#/'-]{1,35}", "DAH": r"[A-Z0-9 .,#/'-]{1,35}", "DAI": r"[A-Z .'-]{1,20}",
    "DAJ": "[A-Z]{2,3}", "DAK": r"[0-9]{5}(?:[0-9]{4})?[0 ]*|[A-Z][0-9][A-Z] ?[0-9][A-Z][0-9] *",
    "DCF": r"[A-Z0-9/ .-]{1,25}", "DCK": r"[A-Z0-9/ .-]{1,25}", "DCG": "USA|CAN|CDN|MEX",
}  # fmt: skip
_VALUE = {code: lazily(form) for code, form in _FORMS.items()}
_CODE = lazily(rf"(?=({'|'.join(_FORMS)}))")
_ADDRESS_AND_DATES = {"DAQ", "DBA", "DBB", "DBD", "DAG", "DAI", "DAJ", "DAK"}
_DOCUMENT = {"DCF", "DCG"}
_NAMES = ("DAA", "DCS", "DAC", "DAD", "DCT")
_LEFT_AWAY = frozenset({"DAG", "DAI", "DAJ", "DAQ", "DCF", "DCG"})
_MIDDLE_BEHIND_FLAG = lazily("DDF[TNU]DAD")
_SUBFILES = {"DL", "ID", "EN"}
_KEPT = (
    "DAA",
    "DCS",
    "DAC",
    "DAD",
    "DCT",
    "DCU",
    "DDE",
    "DDF",
    "DDG",
    "DAQ",
    "DBA",
    "DBB",
    "DBD",
    "DAJ",
    "DAK",
)

Elements = dict[str, str]


def cut_run(run: str, version: int | None) -> Elements | None:
    """The elements of *run*, which starts with one and has no separators; None unless one cut is left."""
    return _cut(run, _mandatory(version))


def cut_lines(lines: list[str], elements: Elements, version: int | None) -> Elements | None:
    """The elements of lines of which some hold more than one; None if none does or not one cut is left.

    *elements* are what the lines say if each holds one. Cards do leave elements away: only one that this card must have
    may be cut out of a name, so that MCDADE stays whole where there is no middle name.
    """
    mandatory = _mandatory(version)
    if elements.keys() & {"DCT", "DAA"}:
        mandatory = mandatory - {"DAC", "DAD", *({"DCS"} if "DAA" in elements else ())}
    if "DAD" not in elements and not any(map(_MIDDLE_BEHIND_FLAG.search, elements.values())):
        mandatory = mandatory - {"DAD"}
    lost = [code for code in mandatory - elements.keys() if any(code in value for value in elements.values())]
    named = "\n".join(elements.get(code, "") for code in _NAMES)
    if not lost or any(code in named for code in _LEFT_AWAY.intersection(lost)):
        return None
    known = dict.fromkeys(line for code, line in _starting(lines) if code in _VALUE)
    cut = _cut("\n".join(known), mandatory)
    return None if cut is None else {**elements, **cut}


def _cut(run: str, mandatory: set[str]) -> Elements | None:
    """The one way to cut *run*, in which a line feed is a separator that was not lost."""
    places = _places(run, mandatory)
    if not places or places[0][0] != 0 or sorted(code for _, code in places if code in mandatory) != sorted(mandatory):
        return None
    ways = _Ways(run, places, mandatory)
    found = list(ways.from_place(0, {}))
    kept = {tuple(way.get(code) for code in _KEPT) for way in found}
    return found[0] if len(kept) == 1 and ways.steps < _MOST_STEPS else None


def _starting(lines: list[str]) -> Iterator[tuple[str, str]]:
    for line in lines:
        bare = line.strip()
        bare = bare[2:] if bare[:2] in _SUBFILES and bare[2:5] in _VALUE else bare
        yield bare[:3], bare


def _places(run: str, mandatory: set[str]) -> list[tuple[int, str]]:
    """Where elements are spelled. One that is mandatory and spelled once leaves no room for others across it."""
    places = [(found.start(), found[1]) for found in _CODE.finditer(run)]
    at_lines = {code: start for start, code in places if start == 0 or run[start - 1] == "\n"}
    places = [(start, code) for start, code in places if at_lines.get(code, start) == start]
    while True:
        times = Counter(code for _, code in places)
        certain = {start for start, code in places if code in mandatory and times[code] == 1}
        across = {start + step for start in certain for step in (-2, -1, 1, 2)}
        left = [place for place in places if place[0] not in across or place[0] in certain]
        if len(left) == len(places):
            return places
        places = left


def _mandatory(version: int | None) -> set[str]:
    if version == 1:
        return _ADDRESS_AND_DATES - {"DBD"} | {"DAA"}
    if version in (2, 3):
        return _ADDRESS_AND_DATES | _DOCUMENT | {"DCS", "DCT"}
    return _ADDRESS_AND_DATES | _DOCUMENT | {"DCS", "DAC", "DAD", "DDE", "DDF", "DDG"}


class _Ways:
    """All ways to cut a run: an element is cut out at every place where it can be, a mandatory one always."""

    def __init__(self, run: str, places: list[tuple[int, str]], mandatory: set[str]) -> None:
        self.run, self.places, self.mandatory = run, [*places, (len(run), "")], mandatory
        self.several = "\n" in run
        self.steps = 0

    def from_place(self, place: int, so_far: Elements) -> Iterator[Elements]:
        """Ways to cut the run from this place on, each with what was cut before it."""
        self.steps += 1
        start, code = self.places[place]
        if not code:
            yield so_far
        elif code not in so_far and self.steps < _MOST_STEPS:
            for following in range(place + 1, len(self.places)):
                end, next_code = self.places[following]
                if end > start + 3 + _LONGEST_VALUE:
                    return
                value, broken, _ = self.run[start + 3 : end].partition("\n")
                if len(value) + len(broken) < end - start - 3:
                    return
                alone = following == place + 1 and self._whole_line(start, end)
                if alone or (end >= start + 3 and _VALUE[code].fullmatch(value.strip(" ") if code != "DAK" else value)):
                    yield from self.from_place(following, {**so_far, code: value})
                if broken:
                    return
                if next_code in self.mandatory:
                    return

    def _whole_line(self, start: int, end: int) -> bool:
        """Whether one line among several stands between these places: then its value may have any form."""
        return (
            self.several
            and self.run[start - 1 : start] in ("", "\n")
            and (end == len(self.run) or self.run[end - 1] == "\n")
        )
