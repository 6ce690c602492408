"""The pages: sound mark-up, no script, nothing from elsewhere, every control labelled, everything typed escaped."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from clean_tender import CLEAN, patched
from page_reader import Page
from starlette.testclient import TestClient

import checkface as cf
from checkface import tables
from checkface.report.rulebook import family_name
from checkface.web import application, fields, form
from checkface.web.examples import SOUND, examples

STYLE = (Path(cf.__file__).parent / "web" / "templates" / "style.css").read_text(encoding="utf-8")
ADDRESSES = [
    "/", "/?example=amounts-disagree", "/examples", "/rules", "/rules?q=", "/rules?q=words+figures", "/rules?q=zzz",
    "/rules?effect=decline", "/rules?q=%3Cb%3E", "/tables", *(f"/tables/{name}" for name in tables.names()), "/nowhere",
    "/rules/alterd", "/tables/x", "/examples/x", "/?example=x",
]  # fmt: skip


#: The policy of the house whose checks are the examples.
DEMO_HOUSE = cf.Policy.parse((tables.folder() / "demo" / "house.toml").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def demo_house() -> Iterator[TestClient]:
    """A client of the application under the policy of the house whose checks are the examples."""
    with TestClient(
        application(DEMO_HOUSE, today=lambda: date(2026, 11, 25)), base_url="http://127.0.0.1:8000"
    ) as found:
        yield found


def _sound(source: str) -> Page:
    page = Page(source)
    assert page.complaints == []
    return page


@pytest.mark.parametrize("address", ADDRESSES)
def test_every_page_is_sound(client: TestClient, address: str) -> None:
    answer = client.get(address)
    assert answer.headers["content-type"] == "text/html; charset=utf-8"
    page = _sound(answer.text)
    assert page.all("link") == [{"rel": "stylesheet", "href": "/style.css"}]
    assert client.get("/style.css").headers["content-type"] == "text/css; charset=utf-8"


def test_every_rule_has_a_page_that_links_to_its_example(client: TestClient) -> None:
    shown = examples()
    for rule in cf.rules():
        page = _sound(client.get(f"/rules/{rule.id}").text)
        assert all(" ".join(words.split()) in " ".join(page.text.split()) for words in rule.explanation.values())
        links = {given["href"] for given in page.all("a")}
        assert (f"/examples/{rule.id}" in links) == (rule.id in shown)


def test_every_example_is_judged_and_shows_its_fault(demo_house: TestClient) -> None:
    found = examples()
    assert len(found) > 90
    assert {"payee-near-house", "drawer-unclear", "pillar-not-seen", "business-check"} <= set(found)
    for name, example in found.items():
        answer = demo_house.get(f"/examples/{name}")
        page = _sound(answer.text)
        assert page.named("answer") == {"id": "answer"}
        assert f">{str(example.disposition).capitalize()}</h1>" in answer.text
        links = [given["href"] for given in page.all("a")]
        assert (f"/rules/{name}" in links) == (name != SOUND)
        wire = json.loads(page.text[page.text.index('{\n  "schema"') :].rpartition("\n}")[0] + "\n}")
        assert wire == cf.assess(example.tender, DEMO_HOUSE).model_dump()
    assert "Nothing was found" in demo_house.get(f"/examples/{SOUND}").text


def test_the_answer_marks_the_very_characters_and_says_what_they_are(demo_house: TestClient) -> None:
    page = _sound(
        demo_house.post(
            "/examine", data=form.of_tender(cf.parse(patched({"face.words": "Fifty-four and 10/100"})))
        ).text
    )
    assert page.marks[2:] == ["45.10", "Fifty-four and 10/100", "45.10", "Fifty-four and 10/100"]
    assert [given.get("class") for given in page.all("mark")][2:] == ["primary", None, "primary", None]
    text = " ".join(page.text.split())
    for told in (
        "Decline The check is not taken. It is handed back to the customer.",
        "“We cannot take this check as it is. May we ask for another form of payment?”",
        "2 findings, strictest first",
        "Words say $54.10, the box $45.10: two digits are swapped. The words count.",
        "characters 2 to 6: $45.10",
        "to compare, $54.10 counts",
        "Remedy ask for a newly written check",
        "UCC 3-114 (law)",
        "What would change the answer To convert amounts-disagree: ask for a newly written check",
        "customer: write new check",
        "Would you please write another check?",
        "Goes in the till nothing",
        "account ••••1122",
    ):
        assert told in text


def test_what_could_not_run_is_named_with_what_it_lacks(client: TestClient) -> None:
    page = _sound(client.post("/examine", data={"face.payee": "Quillfeather Grocery"}).text)
    unread = cf.assess({"face": {"payee": "Quillfeather Grocery"}, "counter": {"on": "2026-11-25"}}).unread
    text = " ".join(page.text.split())
    assert f"{len(unread)} of {len(cf.rules())} rules lacked a reading. A rule that did not run is not a pass." in text
    assert "amounts-disagree lacks: figures, words" in text or "amounts-disagree lacks: words, figures" in text
    assert "2026-11-25 (this server’s day: none was given)" in text


def test_a_check_of_a_real_bank_is_judged_and_not_drawn(client: TestClient) -> None:
    drawn = client.post("/examine", data={"face.micr": "T071098973T 45601122O 1043"}).text
    assert "<svg" in drawn
    assert "SPECIMEN" in drawn
    assert "45601122" not in drawn
    real = client.post("/examine", data={"face.micr": "T011000015T 45601122O 1043"}).text
    assert "<svg" not in real
    assert "See it on a specimen" not in real


@pytest.mark.parametrize("field", [name for name, field in fields.FIELDS.items() if field.shape != "choice"])
def test_mark_up_that_is_typed_is_only_shown(client: TestClient, field: str) -> None:
    hostile = "\"'></textarea></pre><script>alert(1)</script><b x=&amp;"
    for given in ({field: hostile}, {field: hostile, "counter.amount": "not an amount"}, CLEAN_FORM | {field: hostile}):
        page = _sound(client.post("/examine", data=given).text)
        assert not page.all("script")
        assert not page.all("b")


CLEAN_FORM = form.of_tender(cf.parse(CLEAN))


def test_a_query_that_is_mark_up_is_only_shown(client: TestClient) -> None:
    page = _sound(client.get("/rules", params={"q": '"><script>', "effect": '"><script>'}).text)
    assert page.named("q")["value"] == '"><script>'
    assert "0 of" in page.text


def test_mistakes_are_named_beside_the_field_and_what_was_typed_is_there_again(client: TestClient) -> None:
    given = {
        "counter.amount": "much",
        "face.payee": "Quillfeather Grocery",
        "face.words.state": "text",
        "face.micr.state": "blank",
    }
    answer = client.post("/examine", data=given)
    assert answer.status_code == 422
    page = _sound(answer.text)
    assert page.named("counter.amount")["aria-invalid"] == "true"
    assert page.named("counter.amount")["value"] == "much"
    assert "counter.amount-mistake" in page.named("counter.amount")["aria-describedby"].split()
    assert page.named("face.words")["aria-describedby"].split()[-1] == "face.words-mistake"
    assert page.named("face.payee")["value"] == "Quillfeather Grocery"
    assert {"#counter.amount", "#face.words"} <= {given["href"] for given in page.all("a")}
    assert "2 to correct before the check can be examined" in page.text
    assert 'Mistake: Expected dollars as text, such as "45.10", read something else.' in page.text
    chosen = re.search(r'id="face\.micr\.state".*?</select>', answer.text, re.DOTALL)
    assert chosen is not None
    assert '<option value="blank" selected>' in chosen[0]


def test_the_search_finds_every_word_anywhere_in_a_rule(client: TestClient) -> None:
    page = _sound(client.get("/rules?q=UCC+3-114+NEIGHBOUR").text)
    assert "0 of" in page.text
    page = _sound(client.get("/rules?q=ucc+3-114+neither").text + "")
    found = client.get("/rules?q=ucc+3-114").text
    assert "amounts-disagree" in found
    assert "network-down" not in found
    declining = Page(client.get("/rules?effect=decline").text)
    ids = {given["href"].removeprefix("/rules/") for given in declining.all("a") if given["href"].startswith("/rules/")}
    assert ids == {rule.id for rule in cf.rules() if rule.effect is cf.Effect.DECLINE}


def test_rules_are_grouped_by_family_in_their_order(client: TestClient) -> None:
    text = client.get("/rules").text
    headings = re.findall(r'<h2 id="[a-z_]+">([^<]+)</h2>', text)
    assert headings == list(dict.fromkeys(family_name(rule.family) for rule in cf.rules()))
    assert re.findall(r'<article class="rule \w+">\s*<h3>.*?/rules/([a-z0-9-]+)"', text) == [
        rule.id for rule in cf.rules()
    ]


def test_what_the_house_has_changed_is_shown() -> None:
    house = cf.Policy.parse('name = "Larch & <Pebble>"\n[effects]\nmicr-keyed = "decline"')
    client = TestClient(application(house), base_url="http://localhost")
    page = _sound(client.get("/rules/micr-keyed").text)
    assert "This house has changed its effect from keep to decline." in page.text
    assert "House policy: Larch & <Pebble>." in page.text
    assert "micr-keyed" in client.get("/rules?effect=decline").text
    assert "micr-keyed" not in client.get("/rules?effect=keep").text


def test_an_address_given_more_than_once_or_too_long_is_no_fault(client: TestClient) -> None:
    assert client.get("/rules?q=a&q=b&effect=&effect=x").status_code == 200
    assert client.get("/rules?q=" + "a" * 5000).status_code == 200
    assert client.get("/rules/" + "a" * 5000).status_code == 404
    assert client.get("/tables/..%2f..%2fpyproject").status_code == 404
    assert client.get("/examples/%00").status_code == 404


def _luminance(colour: str) -> float:
    def linear(part: str) -> float:
        value = int(part, 16) / 255
        return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(colour[place : place + 2]) for place in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_text_is_as_legible_as_wcag_asks_for(dark: bool) -> None:
    """WCAG 2.2, success criteria 1.4.3 (4.5 to 1 for text) and 1.4.11 (3 to 1 for the edges of controls)."""
    blocks = re.findall(r":root \{(.*?)\}", STYLE, re.DOTALL)
    colours = dict(re.findall(r"--(\w+): (#[0-9a-f]{6});", blocks[1 if dark else 0]))
    assert len(colours) == 13

    def contrast(one: str, other: str) -> float:
        light, shade = sorted((_luminance(colours[one]), _luminance(colours[other])), reverse=True)
        return (light + 0.05) / (shade + 0.05)

    for ground in ("paper", "panel"):
        for ink in ("ink", "soft", "link", "convert", "keep", "refer", "decline", "note"):
            assert contrast(ink, ground) >= 4.5, (ink, ground)
        assert contrast("edge", ground) >= 3
    assert contrast("ink", "mark") >= 7
    assert contrast("paper", "ink") >= 7


def test_the_style_sheet_loads_nothing_and_keeps_the_focus_visible() -> None:
    assert "url(" not in STYLE
    assert "@import" not in STYLE
    assert "outline: none" not in STYLE
    assert ":focus-visible { outline: 3px" in STYLE
    assert len(STYLE) < 10_000
