"""One rule explained, all in a table, and the page to hand out."""

from __future__ import annotations

from html.parser import HTMLParser

import checkface as cf
from checkface.report import entry, explain, handout, table
from checkface.rules.registry import HEADINGS

RULES = {rule.id: rule for rule in cf.rules()}

NETWORK_DOWN = """\
network-down  keep
  The network or the authorization line is down.

What it asks
  Could the electronic debit be sent and answered at this moment?

Why it matters
  A check handed back as converted without an answer from the network is money nobody has asked for.
  On paper it can still be deposited.

Example
  The lane's line to the network has been silent since noon; every check of the afternoon is kept.

What to do
  Complete, endorse and keep every check, whatever its kind, until the line is up again.

Effect
  keep: bars conversion; the paper may be kept and deposited. No house may make it milder than keep.

Remedy
  Nothing at the counter cures this.

Needs
  network; it does not run on a check that lacks them.

Authority
  Common practice (practice): What counters commonly do; no published source."""


def test_one_rule_explained() -> None:
    assert explain(RULES["network-down"]) == NETWORK_DOWN


def test_every_rule_is_explained_under_every_heading() -> None:
    for rule in RULES.values():
        page = explain(rule)
        assert all(f"\n\n{heading}\n  " in page for heading in (*HEADINGS, "Effect", "Remedy", "Needs", "Authority"))
        assert max(map(len, page.splitlines())) <= 100


def test_the_table_has_every_rule_once() -> None:
    lines = table(cf.rules()).splitlines()
    named = [line.split()[0] for line in lines if line.startswith("  ") and line[2] != " "]
    assert sorted(named) == sorted(RULES)
    assert max(map(len, lines)) <= 100


def test_a_rule_as_json() -> None:
    wire = entry(RULES["network-down"])
    assert {key: wire[key] for key in ("id", "family", "effect", "lowest_effect", "force", "remedy", "needs")} == {
        "id": "network-down",
        "family": "counter",
        "effect": "keep",
        "lowest_effect": "keep",
        "force": "practice",
        "remedy": "none",
        "needs": ["network"],
    }
    assert tuple(wire["explanation"]) == HEADINGS
    assert [found["id"] for found in wire["authority"]] == ["common-practice"]


class Page(HTMLParser):
    """Checks the nesting of the elements and gathers what a reader and a browser see."""

    VOID = frozenset({"meta", "input", "br", "link", "img"})

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.links: list[str] = []
        self.loads: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in self.VOID:
            self.open.append(tag)
        given = dict(attrs)
        self.ids += [given["id"] or ""] if "id" in given else []
        self.links += [given["href"] or ""] if "href" in given else []
        self.loads += [tag] if "src" in given or tag in {"link", "img", "iframe", "object"} else []

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def read(html: str) -> Page:
    page = Page()
    page.feed(html)
    page.close()
    assert page.open == []
    return page


def test_the_page_is_whole_and_loads_nothing() -> None:
    html = handout(cf.rules(), "d1g35t")
    page = read(html)
    assert page.loads == []
    assert page.links == [f"#{rule}" for rule in RULES]
    assert [name for name in page.ids if name in RULES] == list(RULES)
    assert len(page.ids) == len(set(page.ids))
    assert "http" not in html.replace('<meta http-equiv="Content-Security-Policy"', "")
    assert "url(" not in html
    assert "@import" not in html
    assert "d1g35t" in html


def test_the_page_says_all_that_the_book_says() -> None:
    text = " ".join(read(handout(cf.rules(), "")).text)
    for rule in RULES.values():
        assert rule.title in text
        assert all(words in text for words in rule.explanation.values())


def test_what_looks_like_markup_stays_text() -> None:
    words = dict.fromkeys(("title", *HEADINGS), "<script>alert('&')</script>")
    page = read(handout([RULES["network-down"]._replace(explanation=words)], "<b>"))
    assert page.text.count("<script>alert('&')</script>") == 5


def test_the_page_has_a_form_for_paper_and_for_the_dark() -> None:
    html = handout(cf.rules(), "")
    assert "@media print" in html
    assert "prefers-color-scheme: dark" in html
    assert '<label for="find">' in html
