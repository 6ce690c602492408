"""Kinds are rows of one table, closed by default."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

import checkface as cf
from checkface import kinds, tables
from checkface.findings import Effect
from checkface.kinds import Kind
from checkface.policy import Policy, PolicyError
from checkface.tender import Tender

#: What may ever be converted, said a second time: common practice; a house may add the two that are its own risk.
MAY_CONVERT = {"personal": "yes", "business": "house", "payroll": "house"}

WHOLE: dict[str, Any] = {
    "id": "barter", "name": "barter note", "rule": "barter-note", "title": "A barter note.", "asks": "a", "why": "b",
    "example": "c", "do": "d", "authority": ["common-practice"], "effect": "keep",
}  # fmt: skip


def test_only_these_may_be_converted() -> None:
    assert {str(kind): kind.row.convertible for kind in Kind if kind.row.convertible != "never"} == MAY_CONVERT


def test_a_kind_that_is_not_called_convertible_is_not() -> None:
    assert kinds.row_of(WHOLE).convertible == "never"


@pytest.mark.parametrize("key", ["name", "rule", "title", "why", "do", "authority", "effect"])
def test_a_row_that_says_less_than_it_must_cannot_load(key: str) -> None:
    with pytest.raises(tables.TableError, match=f"'barter', missing or wrong: {key}"):
        kinds.row_of({name: value for name, value in WHOLE.items() if name != key})


@pytest.mark.parametrize("wrong", [{"convertible": "always"}, {"paid_to": "bearer"}])
def test_a_row_with_a_word_of_its_own_cannot_load(wrong: dict[str, str]) -> None:
    with pytest.raises(tables.TableError, match="barter"):
        kinds.row_of(WHOLE | wrong)


@pytest.mark.parametrize("kind", [kind for kind in Kind if kind.row.convertible != "yes"])
def test_every_other_kind_has_a_rule_that_bars_it(kind: Kind) -> None:
    rule = next(entry for entry in cf.rules() if entry.id == kind.row.rule)
    assert rule.effect >= Effect.KEEP
    assert rule.lowest_effect >= Effect.KEEP or kind.row.convertible == "house"


@pytest.mark.parametrize("kind", [kind for kind in Kind if kind.row.convertible == "never"])
def test_a_policy_cannot_call_it_convertible(kind: Kind) -> None:
    with pytest.raises(PolicyError, match="a kind that a house may convert"):
        Policy.parse(f'[kinds]\nconvertible = ["{kind}"]')


def test_a_new_kind_is_a_row_and_its_phrases_and_no_code() -> None:
    # The gift check came later than the others: no module names it.
    code = "\n".join(path.read_text(encoding="utf-8") for path in Path(kinds.__file__).parent.rglob("*.py"))
    assert re.search("gift.?check", code, re.IGNORECASE) is None
    assert Kind("gift-check").row.rule == "gift-check"
    read = cf.read(cf.assess({"face": {"legends": ["GIFT CHECK"]}}).read.tender)
    assert read.kinds == {Kind("gift-check")}


@pytest.mark.parametrize(("name", "kind"), [(n, kind) for kind in Kind for n in (str(kind), *kind.row.also)])
def test_every_name_of_a_kind_is_known_on_the_wire(name: str, kind: Kind) -> None:
    tender = Tender.model_validate({"face": {}, "counter": {"declared_kind": name.upper().replace("-", " ")}})
    assert tender.counter.declared_kind is kind
