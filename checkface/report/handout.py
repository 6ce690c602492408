"""The rule book as one page of HTML to hand out: contents, a search that needs no server, and a form for paper.

The page loads nothing: style and script are inside it, and its own security policy forbids everything else.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from itertools import groupby

from checkface import authority
from checkface.report.facts import source
from checkface.report.rulebook import AUDIT, Explained, facts_of, family_name

_STYLE = """
:root { color-scheme: light dark; --ink: #1b1f24; --paper: #fffdf8; --line: #c9c2b4; --soft: #6a6458; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #e8e4da; --paper: #1a1917; --line: #4a463e; --soft: #a59f92; }
}
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 74rem; padding: 1.5rem; display: grid; grid-template-columns: 17rem 1fr;
  column-gap: 3rem; font: 1rem/1.55 Georgia, "Times New Roman", serif; color: var(--ink); background: var(--paper); }
header, footer { grid-column: 1 / -1; }
nav { font-size: .875rem; position: sticky; top: 0; max-height: 100vh; overflow: auto; align-self: start; }
nav ul { list-style: none; margin: 0 0 1rem; padding: 0; }
a { color: inherit; text-decoration-color: var(--line); text-underline-offset: .2em; }
h1 { margin: 0; font-weight: normal; }
h2 { font-weight: normal; border-bottom: 1px solid var(--line); margin: 2.5rem 0 1rem; }
main > section:first-child h2 { margin-top: 0; }
h3 { font: bold 1rem/1.4 ui-monospace, monospace; margin: 0; }
article { margin-bottom: 2rem; scroll-margin-top: 1rem; }
article > p { margin: .25rem 0 .5rem; }
dl { display: grid; grid-template-columns: 8rem 1fr; gap: .25rem 1rem; margin: 0; }
dt { color: var(--soft); font-style: italic; }
dd { margin: 0; }
.effect { font: .8rem ui-monospace, monospace; border: 1px solid currentColor; padding: 0 .4rem; margin-left: .5rem; }
label { display: block; margin: 1rem 0 .25rem; }
input { font: inherit; width: 100%; max-width: 30rem; padding: .4rem .6rem; border: 1px solid var(--soft);
  color: inherit; background: transparent; }
[hidden] { display: none !important; }
@media (max-width: 50rem) { body { display: block; } nav { position: static; max-height: none; } }
@media print {
  :root { --ink: #000; --paper: #fff; --line: #999; --soft: #333; }
  body { display: block; max-width: none; padding: 0; font-size: 10pt; }
  .search { display: none; } nav { position: static; max-height: none; columns: 2; break-after: page; }
  article { break-inside: avoid; } h2 { break-after: avoid; }
  @page { margin: 2cm; }
}
"""

_SCRIPT = """
const box = document.getElementById("find"), said = document.getElementById("said");
const rules = [...document.querySelectorAll("article")].map(a => [a, a.textContent.toLowerCase()]);
const groups = [...document.querySelectorAll("main > section")];
const find = () => {
  const words = box.value.toLowerCase().split(/\\s+/).filter(Boolean);
  let shown = 0;
  for (const [article, text] of rules) {
    const fits = words.every(word => text.includes(word));
    article.hidden = !fits;
    document.querySelector(`nav a[href="#${article.id}"]`).parentElement.hidden = !fits;
    shown += fits;
  }
  for (const group of groups) group.hidden = !group.querySelector("article:not([hidden])");
  said.textContent = words.length ? `${shown} of ${rules.length} rules` : "";
};
box.addEventListener("input", find);
"""

_POLICY = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'"


def handout(rules: Sequence[Explained], digest: str) -> str:
    """The page for all *rules*; *digest* of the book stands at its foot."""
    families = [(family, list(members)) for family, members in groupby(rules, key=lambda rule: rule.family)]
    return "\n".join((*_head(rules), *_contents(families), *_book(families), *_foot(digest))) + "\n"


def _head(rules: Sequence[Explained]) -> Iterator[str]:
    yield '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">'
    yield f'<meta http-equiv="Content-Security-Policy" content="{escape(_POLICY)}">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>The rule book of checkface</title>\n<style>{_STYLE}</style>\n</head>\n<body>\n<header>"
    yield "<h1>The rule book</h1>"
    audited = sum(rule.family == AUDIT for rule in rules)
    yield f"<p>{len(rules) - audited} rules for a check at the counter: may it be converted, must it be kept, does a"
    yield "manager decide, or is it handed back? The strictest rule that finds something decides."
    if audited:
        yield f"Another {audited} are for the audit of a day or a month, and change no answer."
    yield "Not legal advice.</p>"
    yield '<div class="search"><label for="find">Find rules that contain</label>'
    yield '<input id="find" type="search" autocomplete="off"> <output id="said" for="find"></output></div>\n</header>'


def _contents(families: Sequence[tuple[str, Sequence[Explained]]]) -> Iterator[str]:
    yield '<nav aria-label="Contents">'
    for family, members in families:
        yield f"{escape(family_name(family))}\n<ul>"
        for rule in members:
            yield f'<li><a href="#{escape(rule.id)}">{escape(rule.id)}</a></li>'
        yield "</ul>"
    yield "</nav>"


def _book(families: Sequence[tuple[str, Sequence[Explained]]]) -> Iterator[str]:
    yield "<main>"
    for family, members in families:
        yield f"<section>\n<h2>{escape(family_name(family))}</h2>"
        for rule in members:
            yield from _article(rule)
        yield "</section>"
    yield "</main>"


def _article(rule: Explained) -> Iterator[str]:
    yield f'<article id="{escape(rule.id)}">'
    yield f'<h3>{escape(rule.id)} <span class="effect">{escape(rule.effect)}</span></h3>'
    yield f"<p>{escape(rule.title)}</p>\n<dl>"
    for heading, words in (*rule.explanation.items(), *facts_of(rule)):
        if heading != "title":
            yield f"<dt>{escape(heading)}</dt><dd>{escape(words)}</dd>"
    for number, identifier in enumerate(rule.authority):
        heading = "" if number else "Authority"
        edition = authority.get(identifier).edition
        yield f"<dt>{heading}</dt><dd>{escape(source(identifier))} <small>({escape(edition)})</small></dd>"
    yield "</dl>\n</article>"


def _foot(digest: str) -> Iterator[str]:
    yield f"<footer><p><small>Digest of this book: {escape(digest)}</small></p></footer>"
    yield f"<script>{_SCRIPT}</script>\n</body>\n</html>"
