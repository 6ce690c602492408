"""The help pages: usage, what the command is for, then its options in two columns, with no boxes around them."""

from __future__ import annotations

import textwrap
from io import StringIO
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from cyclopts.help import HelpEntry, HelpPanel
    from rich.console import Console, ConsoleOptions

#: Widest column of names; what is wider puts its text on the line below.
NAMES = 26
WIDEST = 100


class Pages:
    """A help formatter of cyclopts."""

    def render_usage(self, console: Console, options: ConsoleOptions, usage: Any) -> None:  # noqa: ARG002
        """The first line."""
        _print(console, _plain(usage).strip())

    def render_description(self, console: Console, options: ConsoleOptions, description: Any) -> None:  # noqa: ARG002
        """What the command is for: paragraphs are wrapped, what is indented stays as it is."""
        for paragraph in _plain(description).strip("\n").split("\n\n"):
            indented = paragraph.startswith(" ")
            _print(console, "")
            _print(console, paragraph if indented else "\n".join(textwrap.wrap(paragraph, _width(console))))

    def __call__(self, console: Console, options: ConsoleOptions, panel: HelpPanel) -> None:  # noqa: ARG002
        """One group of options or commands."""
        if not panel.entries:
            return
        _print(console, f"\n{_plain(panel.title).strip()}:")
        widest = max((len(_label(entry)) for entry in panel.entries), default=0)
        margin = min(widest, NAMES) + 4
        for entry in panel.entries:
            for line in _entry(entry, margin, _width(console)):
                _print(console, line)


def _entry(entry: HelpEntry, margin: int, width: int) -> list[str]:
    label = f"  {_label(entry)}"
    text = " ".join(_plain(entry.description).split())
    if entry.default:
        text += f" [default: {entry.default}]"
    lines = textwrap.wrap(text, width - margin, break_on_hyphens=False) or [""]
    head = [label] if len(label) > margin - 2 else []
    if not head:
        lines[0] = f"{label:{margin}}{lines[0]}"
    return [*head, *(line if line.startswith(label) and not head else " " * margin + line for line in lines)]


def _label(entry: HelpEntry) -> str:
    if entry.positional_label:
        return entry.positional_label
    names = ", ".join([*entry.positive_shorts, *entry.positive_names, *entry.negative_names])
    return f"{names} {entry.metavar}" if entry.metavar else names


def _width(console: Console) -> int:
    return min(console.width, WIDEST)


def _plain(renderable: Any) -> str:
    """The text of anything cyclopts puts into a page, not yet wrapped."""
    if renderable is None or isinstance(renderable, str):
        return renderable or ""
    from rich.console import Console

    page = Console(file=StringIO(), width=10_000, no_color=True, highlight=False, markup=False, emoji=False)
    with page.capture() as capture:
        page.print(renderable)
    return "\n".join(line.rstrip() for line in capture.get().splitlines())


def _print(console: Console, text: str) -> None:
    console.print(text, highlight=False, markup=False, emoji=False, soft_wrap=True)
