"""The two reports of one tender: exact pages, equal in content, and harmless on a terminal."""

from __future__ import annotations

import tomllib
import unicodedata
from pathlib import Path
from typing import Any

import pytest
from clean_tender import patched
from hypothesis import given, settings
from hypothesis import strategies as st

import checkface as cf
from checkface.report import caret, plain
from checkface.report.facts import facts, opening_words, step_words, unread_words

FIXTURES = {
    rule: fixture
    for path in sorted((Path(__file__).parents[1] / "rules" / "fixtures").glob("*.toml"))
    for rule, fixture in tomllib.loads(path.read_text(encoding="utf-8")).items()
}

DRAWN = """\
DECLINE  0001

decline   signature-missing
          Not signed.
          signature | (not seen)
remedy    have the customer sign
source    UCC 3-401(a) (law, from memory): Nobody is liable on an instrument without a signature.
          Common practice (practice): What counters commonly do; no published source.

keep      micr-auxiliary-on-us
          An auxiliary field stands left of the routing number, as on business checks.
          MICR line | ⑈001043⑈ ⑆071098973⑆ ••••1122⑈
                    |  ^^^^^^
remedy    nothing at the counter cures this
source    Nacha eligible-source-document bulletin (2006) (network, by its public summary): A check
          with an auxiliary on-us field is not a source document for conversion.

answer    decline
read as   routing 071098973; account ••••1122; check number 001043; amount $45.10; date 2026-11-24;
          kind personal
change    to keep: signature-missing (have the customer sign)
change    to convert: not at this counter, signature-missing (have the customer sign);
          micr-auxiliary-on-us (nothing at the counter cures this)
say       We cannot take this check as it is. May we ask for another form of payment?
record    Decline and hand back: Not signed. An auxiliary field stands left of the routing number,
          as on business checks."""

TOLD = """\
Tender 0001: the answer is decline.

Rule signature-missing, effect decline. Not signed. At the signature, not seen. \
Remedy: have the customer sign. Sources: UCC 3-401(a) (law, from memory): Nobody is liable on an instrument without a \
signature. Common practice (practice): What counters commonly do; no published source.

Rule micr-auxiliary-on-us, effect keep. An auxiliary field stands left of the routing number, as on business checks. \
At the MICR line, characters 2 to 7 "001043". Remedy: nothing at the counter cures this. Source: Nacha \
eligible-source-document bulletin (2006) (network, by its public summary): A check with an auxiliary on-us field is \
not a source document for conversion.

Read as: routing 071098973; account ••••1122; check number 001043; amount $45.10; date 2026-11-24; kind personal. \
It could change to keep: signature-missing (have the customer sign). It could change to convert: not at this counter, \
signature-missing (have the customer sign); micr-auxiliary-on-us (nothing at the counter cures this). To the \
customer: "We cannot take this check as it is. May we ask for another form of payment?" For the record: Decline and \
hand back: Not signed. An auxiliary field stands left of the routing number, as on business checks."""


def business(**patch: Any) -> cf.Assessment:
    """A tender with two faults of different weight."""
    return cf.assess(
        patched(
            {"face.micr": "⑈001043⑈ ⑆071098973⑆ 45601122⑈", "face.serial": "001043", "face.signature": False, **patch}
        ),
        cf.Policy.model_validate(
            {"kinds": {"convertible": ["personal", "business"]}, "payee": {"names": ["Quillfeather Grocery"]}}
        ),
    )


def test_the_drawn_page() -> None:
    assert caret(business()) == DRAWN


def test_the_told_page() -> None:
    assert plain(business()) == TOLD


def squeezed(text: str) -> str:
    return " ".join(text.split())


def said_by(assessment: cf.Assessment) -> list[str]:
    """Every fact that a report of *assessment* must hold, as it stands in both."""
    told = facts(assessment)
    said = [told.id, str(told.disposition), told.to_customer, told.for_house]
    said += [unread_words(told.unread, verbose=True)] if told.unread else []
    for found in told.found:
        said += [found.rule, str(found.effect), found.message, found.remedy, *found.sources]
        for point in found.points:
            covered = point.text[point.start : point.end]
            said += [point.reading, point.state.strip("()"), point.words]
            said += [covered] if len(covered) <= 40 and "\n" not in covered else []
    said += [opening_words(opening) for opening in told.openings]
    said += [f"{name} {value}" for name, value in told.values]
    said += [step_words(step) for step in told.steps]
    return [squeezed(words) for words in said]


@pytest.mark.parametrize("rule", FIXTURES)
def test_both_reports_say_the_same(rule: str) -> None:
    fixture = FIXTURES[rule]
    assessment = cf.assess(patched(fixture["found"]), cf.Policy.model_validate(fixture.get("policy", {})))
    drawn, told = (squeezed(page(assessment, verbose=True)) for page in (caret, plain))
    assert [words for words in said_by(assessment) if words not in drawn] == []
    assert [words for words in said_by(assessment) if words not in told] == []


@pytest.mark.parametrize("rule", FIXTURES)
def test_no_report_shows_a_number_in_full(rule: str) -> None:
    fixture = FIXTURES[rule]
    policy = cf.Policy.model_validate(fixture.get("policy", {}))
    assessment = cf.assess(patched({"face.legends": "acct 45601122", **fixture["found"]}), policy)
    for page in (caret, plain):
        shown = page(assessment, verbose=True)
        assert [secret for secret in ("45601122", "A12345678901", "4111111111111111") if secret in shown] == []


def test_numbers_are_shown_when_asked() -> None:
    assert "45601122" in caret(business(), reveal=True)
    assert "45601122" in plain(business(), reveal=True)


def test_few_rules_that_could_not_run_are_named_and_many_counted() -> None:
    assert unread_words(("a",), verbose=False) == "1 rule could not run, a reading is missing: a"
    assert unread_words(("a", "b", "c", "d"), verbose=False) == (
        "4 rules could not run, a reading is missing; --verbose names them"
    )
    assert unread_words(("a", "b", "c", "d"), verbose=True) == "4 rules could not run, a reading is missing: a, b, c, d"


def test_steps_are_listed_when_asked() -> None:
    assert "\nstep 1 " in caret(business(), verbose=True)
    assert "\nstep 1 " not in caret(business())
    assert "\n\nStep 1, " in plain(business(), verbose=True)


def test_what_is_painted() -> None:
    page = caret(business(), paint=lambda text, role: f"<{role}>{text}</>" if role in {"decline", "primary"} else text)
    assert "<decline>DECLINE</>  0001" in page
    assert "<decline>decline   </>signature-missing" in page
    assert "| <primary> ^^^^^^</>" in page


def test_the_page_keeps_to_its_width() -> None:
    narrow = caret(business(), columns=60)
    assert max(map(len, narrow.splitlines())) <= 60


TEXTS = st.text(max_size=40) | st.text(alphabet="\x1b[]0123456789;m⑆⑈\u202e\u0301 \n\tTOAD$/", max_size=60)
READINGS = ("micr", "fraction", "serial", "date", "payee", "figures", "words", "drawer", "drawee", "legends")


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(st.sampled_from(READINGS), TEXTS | st.none(), max_size=6), TEXTS)
def test_any_tender_is_reported_and_nothing_in_it_acts_on_a_terminal(face: dict[str, Any], name: str) -> None:
    assessment = cf.assess({"id": name, "face": face, "counter": {"on": "2026-11-24"}})
    for page in (caret(assessment, verbose=True), plain(assessment, verbose=True)):
        acting = {c for c in page if unicodedata.category(c) in {"Cc", "Cf", "Cs"} and c != "\n"}
        assert acting == set()


def test_a_source_is_told_whole_once() -> None:
    page = caret(cf.assess({"face": {"micr": "T071098973T 45601122O 1043"}}))
    whole = "House policy (house): What this house has decided for its own counters"
    assert squeezed(page).count(whole) == 1
    assert "House policy (house), as above" in page
