"""What will be printed and written, as text: paper by paper, place by place, at the printer's own width.

Official source of what is on the papers: see :mod:`checkface.handling.plan` and :mod:`checkface.handling.receipt`. The
layout is our own. It shows the texts as they will be printed; every face is marked SPECIMEN, so that a preview is
never taken for the paper.
"""

from __future__ import annotations

from checkface.handling import plan
from checkface.handling.instructions import Instructions
from checkface.handling.layout import checked, pair, wrapped
from checkface.handling.plan import Step

#: Papers in the order in which they are shown, by the head of a step's place.
_PAPERS = {
    "front": "FRONT OF CHECK (SPECIMEN)",
    "back": "BACK OF CHECK (SPECIMEN)",
    "signature sheet": "SIGNATURE SHEET",
    "receipt": "RECEIPT",
    "authorization copy": "CUSTOMER'S COPY",
    "slip": "SLIP",
    "notation slip": "SLIP THAT STAYS WITH THE CHECK",
}


def preview_text(instructions: Instructions, width: int = 40) -> str:
    """Everything that ends up on paper, in lines of at most *width* columns.

    Raises ``ValueError`` for a width that no receipt fits.
    """
    checked(width)
    lines: list[str] = []
    printed = [step for step in instructions.steps if plan.on_paper(step)]
    for head, title in _PAPERS.items():
        steps = [step for step in printed if step.where.partition(":")[0] == head]
        if not steps:
            continue
        lines += ["", *wrapped(title, width), "." * width] if lines else [*wrapped(title, width), "." * width]
        for step in steps:
            lines += _step_lines(step, instructions, width)
    return "\n".join(lines or wrapped("Nothing is printed.", width)) + "\n"


def _step_lines(step: Step, instructions: Instructions, width: int) -> list[str]:
    place = step.where.partition(": ")[2]
    lines = wrapped(f"{place}:", width) if place else []
    if step.only_if:
        lines += wrapped(f"(if {step.only_if})", width)
    receipt = instructions.receipt
    if step.where == "receipt" and receipt is not None:
        for item in receipt.shown:
            lines += pair(item.label, item.printed, width)
        return lines
    indent = "  " if place else ""
    return lines + [f"{indent}{line}".rstrip() for line in wrapped(step.text, width - len(indent))]
