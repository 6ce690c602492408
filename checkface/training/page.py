"""A drill as one page of HTML to print: the drawn checks with room to answer, and the key on pages of its own.

The page loads nothing and runs nothing: style and drawings are inside it, and its own security policy forbids
everything else. It reads in black and white, on a dark screen, and aloud.
"""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from checkface.findings import Disposition
from checkface.report.facts import source
from checkface.training.drills import Drill, Item
from checkface.training.key import SOUND, paper
from checkface.training.picture import drawn
from checkface.training.reply import deciding
from checkface.training.sheets import house, table
from checkface.training.textface import circumstances, question

_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
_STYLE = """
:root { color-scheme: light dark; --ink: #1c2026; --paper: #ffffff; --line: #b8bbc2; --soft: #555a64; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #e6e6e3; --paper: #191b1f; --line: #4b4f58; --soft: #a9adb5; }
}
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 46rem; padding: 1.5rem; color: var(--ink); background: var(--paper);
  font: 1rem/1.5 Georgia, "Times New Roman", serif; }
h1 { font-weight: normal; margin: 0 0 .25rem; }
h2 { font-weight: normal; margin: 2.5rem 0 .5rem; }
h3 { font: bold 1rem/1.4 Georgia, serif; margin: 0 0 .4rem; }
.small, footer { font-size: .85rem; color: var(--soft); }
article { margin: 2rem 0; break-inside: avoid; }
article svg { display: block; width: 100%; height: auto; max-width: 100%; border-radius: 4px; }
article p { margin: .4rem 0; }
fieldset { border: 0; border-bottom: 1px solid var(--line); padding: .3rem 0 1.1rem; margin: .5rem 0 0; }
fieldset span { margin-right: 1.4rem; white-space: nowrap; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; padding: .2rem .6rem .2rem 0; border-bottom: 1px solid var(--line); vertical-align: top; }
nav a { color: inherit; }
@page { margin: 1.6cm; }
@media print {
  :root { color-scheme: light; --ink: #000; --paper: #fff; --line: #777; --soft: #333; }
  body { max-width: none; padding: 0; font-size: 10.5pt; }
  nav { display: none; }
  article { margin: 0 0 1.1rem; } article svg { width: auto; } article p { margin: .25rem 0; }
  .key { break-before: page; } .key svg { max-width: 80%; }
  h2, h3 { break-after: avoid; } h2 { margin-top: 1.2rem; }
}
"""


def handout(drill: Drill) -> str:
    """The whole page. It ends with a line end."""
    return "\n".join((*_head(drill), *_questions(drill), *_key(drill), *_foot(drill))) + "\n"


def _head(drill: Drill) -> Iterator[str]:
    taught = drill.lesson
    yield '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">'
    yield f'<meta http-equiv="Content-Security-Policy" content="{escape(_POLICY)}">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{escape(taught.title)}, seed {drill.seed}</title>\n<style>{_STYLE}</style>\n</head>"
    yield "<body>\n<header>"
    yield f"<h1>{escape(taught.title)}</h1>"
    count = f"{len(drill.items)} check{'s' * (len(drill.items) > 1)}"
    yield f'<p class="small">Lesson {escape(taught.id)}, seed {drill.seed}, {count}. Name: ________________</p>'
    yield from (f"<p>{escape(paragraph)}</p>" for paragraph in taught.text)
    yield f'<p class="small">This house: {escape(house(drill.items[0].policy))}.</p>'
    yield from (f'<p class="small">{escape(source(identifier))}</p>' for identifier in taught.cite)
    yield '<nav><a href="#key">To the key</a></nav>\n</header>'


def _questions(drill: Drill) -> Iterator[str]:
    yield "<main>\n<section>\n<h2>The checks</h2>"
    for item in drill.items:
        assessment = item.judged()
        yield f'<article id="check-{item.number}">\n<h3>Check {item.number}</h3>'
        yield drawn(assessment).rstrip()
        yield f"<p>{escape(' '.join(circumstances(assessment)))}{_back(item)}</p>"
        yield f"<p>{escape(question(assessment))}</p>"
        boxes = "".join(f"<span>\u2610 {disposition}</span>" for disposition in Disposition)
        yield f'<fieldset aria-label="Answer to check {item.number}">{boxes}<span>because</span></fieldset>\n</article>'
    yield "</section>"


def _back(item: Item) -> str:
    text = item.tender.face.endorsements.text
    return escape(f" On the back: {text}.") if text else ""


def _key(drill: Drill) -> Iterator[str]:
    yield '<section class="key" id="key">\n<h2>The key</h2>\n<table>'
    yield "<tr><th>Check</th><th>Answer</th><th>Rules that decide</th></tr>"
    for number, answer, causes in table(drill):
        yield f"<tr><td>{number}</td><td>{escape(answer)}</td><td>{escape(causes)}</td></tr>"
    yield "</table>"
    for item in drill.items:
        assessment = item.judged()
        yield f"<article>\n<h3>Check {item.number}: {assessment.disposition}</h3>"
        if assessment.findings:
            yield drawn(assessment, marked=True).rstrip()
        else:
            yield f"<p>{escape(SOUND)}</p>"
        yield f"<p>{escape(paper(assessment))} {escape(f'Say: “{assessment.decision.for_customer}”')}</p>"
        decides = [finding for finding in assessment.findings if finding.rule in deciding(assessment)]
        cited = dict.fromkeys(source(finding.authority[0]) for finding in decides)
        yield "".join(f'<p class="small">{escape(words)}</p>' for words in cited)
        yield "</article>"
    yield "</section>\n</main>"


def _foot(drill: Drill) -> Iterator[str]:
    again = f"checkface lesson {drill.lesson.id} --seed {drill.seed} --count {len(drill.items)} --html FILE"
    yield "<footer><p>Every check is a specimen: no bank, no account and no person on it is real. Not legal advice.</p>"
    yield f"<p>The same page again: {escape(again)}</p></footer>\n</body>\n</html>"
