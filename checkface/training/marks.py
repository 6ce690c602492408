"""What was found, marked on the drawing: a number at the very reading, and under the face what each number says.

A callout is a number in a ring beside a dashed frame around the reading; on the magnetic-ink line the frame holds the
very characters. In other readings the characters in question are bold and underlined. Nothing hangs on colour, so it
prints in black and white; the numbers are explained in text under the face and in the description of the drawing.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from typing import NamedTuple

from checkface.assessment import Assessment
from checkface.findings import Finding, Label
from checkface.report.facts import NAMES, facts, name_of
from checkface.tender import Tender
from checkface.training import pen, strokes
from checkface.training.layout import Region, back, regions, wording_place

RING = 78
#: Letters of the legend: their height, how many of them a thousandth of an inch holds, and the space between lines.
SIZE, LINE = 100, 140


class Callout(NamedTuple):
    """One number on the drawing: where it stands, and what it says."""

    number: int
    finding: Finding
    label: Label
    says: str


def callouts(assessment: Assessment) -> list[Callout]:
    """One callout for each place a finding points at, the strictest finding first."""
    told = facts(assessment)
    findings = sorted(assessment.decision.findings, key=lambda finding: -finding.effect.rank)
    found: list[Callout] = []
    for finding, words in zip(findings, told.found, strict=True):
        for label in finding.labels or (Label("face"),):
            if label.primary or not found or found[-1].finding is not finding:
                says = f"{finding.effect.upper()}  {words.message}"
            else:
                says = f"compare: {label.words or name_of(label.reading)}"
            if label.reading == "face.endorsements":
                says += " (on the back)"
            elif not label.reading.startswith("face."):
                says += f" (not on the paper: {name_of(label.reading)})"
            found.append(Callout(len(found) + 1, finding, label, says))
    return found


def ranges(found: list[Callout]) -> dict[str, list[tuple[int, int]]]:
    """The characters in question of each reading of the face; a finding about all of it underlines nothing."""
    marked: dict[str, list[tuple[int, int]]] = {}
    for callout in found:
        branch, _, name = callout.label.reading.partition(".")
        if branch == "face" and name != "micr" and callout.label.end > callout.label.start:
            marked.setdefault(name, []).append((callout.label.start, callout.label.end))
    return marked


def on_face(found: list[Callout], tender: Tender, width: float, height: float) -> Iterator[str]:
    """The rings and frames."""
    places = regions(width, height)
    taken: dict[str, int] = {}
    for callout in found:
        branch, _, name = callout.label.reading.partition(".")
        if branch != "face" or name not in places or name == "endorsements":
            continue
        frame = _frame(callout.label, tender, places, width, height)
        key = f"{frame.left:g} {frame.top:g}"
        beside = taken.get(key, 0)
        if not beside:
            yield pen.rect(
                frame.left - 25, frame.top, frame.width + 50, frame.height, rx=30, fill="none", stroke="#000000",
                stroke_width=14, stroke_dasharray="46 30",
            )  # fmt: skip
        taken[key] = beside + 1
        x = min(max(frame.left - 60 + beside * RING * 2.2, RING + 12), width - RING - 12)
        yield _ring(callout, x, max(frame.top - 20, RING + 12))


def on_back(found: list[Callout], width: float, height: float) -> Iterator[str]:
    """The rings of what stands on the back."""
    area = back(width, height)["endorsements"]
    numbered = [callout for callout in found if callout.label.reading == "face.endorsements"]
    for beside, callout in enumerate(numbered):
        yield _ring(callout, area.left + RING + 40 + beside * RING * 2.2, RING + 40)


def _ring(callout: Callout, x: float, y: float) -> str:
    return pen.group(
        "callout",
        [
            pen.title(f"{callout.number}: {callout.says}"),
            f'<circle cx="{x:g}" cy="{y:g}" r="{RING}" fill="#ffffff" stroke="#000000" stroke-width="14"/>',
            pen.text(
                x, y + 38, 105, str(callout.number), text_anchor="middle", font_family=pen.SANS, font_weight="bold"
            ),
        ],
    )


def _frame(label: Label, tender: Tender, areas: dict[str, Region], width: float, height: float) -> Region:
    """The box around what *label* points at: the reading, its line of wording, or the characters of the line."""
    name = label.reading.removeprefix("face.")
    band = areas[name]
    if name == "legends":
        line = tender.face.legends.text[: label.start].count("\n")
        words = (tender.face.legends.text.split("\n") or [""])[line]
        return band if wording_place(words) == "title" else areas["terms"]
    if name != "micr":
        return band
    places = strokes.placed(tender.face.micr.text, width)
    inside = [place for place in places if label.start <= place.at < label.end] or places
    if not inside:
        return Region(300, band.top + 150, width - 600, 310, 0, 0)
    left = strokes.right_edge(max(place.position for place in inside), width) - strokes.PITCH + 22
    right = strokes.right_edge(min(place.position for place in inside), width) + 12
    return Region(left, height - 437.5, right - left, 250, 0, 0)


def legend(found: list[Callout], answer: str, width: float) -> tuple[list[str], float]:
    """The text under the face and the height it takes."""
    columns = int((width - 500) / (SIZE * pen.WIDE_AS_HIGH))
    parts = [pen.text(150, 210, 130, f"Answer: {answer}", width - 300, font_family=pen.SANS, font_weight="bold")]
    y = 210.0
    for callout in found:
        y += 60
        rule = f"  [{callout.finding.rule}]" if not callout.says.startswith("compare") else ""
        lines = textwrap.wrap(callout.says + rule, columns, break_on_hyphens=False)
        for number, words in enumerate(lines):
            y += LINE
            if not number:
                parts.append(pen.text(150, y, SIZE, f"{callout.number}", 180, font_family=pen.SANS, font_weight="bold"))
            parts.append(pen.text(350, y, SIZE, words, width - 500, font_family=pen.SANS))
    if not found:
        y += 60 + LINE
        parts.append(
            pen.text(350, y, SIZE, "Nothing found that bars an electronic debit.", width - 500, font_family=pen.SANS)
        )
    return parts, y + 120


def described(found: list[Callout], answer: str) -> str:
    """The legend in one paragraph, for those who hear the drawing."""
    told = " ".join(f"{callout.number}. {callout.says}" for callout in found)
    return f"Answer: {answer}. {told}".strip()


def face_words(tender: Tender) -> str:
    """What stands on the face, in one paragraph."""
    said = []
    for name in ("drawer", "serial", "fraction", "date", "payee", "figures", "words", "drawee", "legends"):
        text = getattr(tender.face, name).text
        if text:
            said.append(f"{NAMES['face.' + name]}: {text}".replace("\n", ", "))
    return "A specimen check. " + "; ".join(said) + "."
