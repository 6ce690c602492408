"""The public names: each is there however the package was first entered, and none makes the others wait."""

from __future__ import annotations

import json
import subprocess
import sys
from typing import Any

import pytest

import checkface as cf
from checkface import handling, identity


def fresh(code: str) -> Any:
    """What *code* prints as JSON in an interpreter that has imported nothing yet."""
    run = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    return json.loads(run.stdout)


@pytest.mark.parametrize("room", [cf, identity, handling])
def test_every_public_name_is_there(room: Any) -> None:
    assert all(getattr(room, name) is not None for name in room.__all__)
    assert set(cf.__all__) <= set(dir(cf))
    with pytest.raises(AttributeError, match="no attribute 'asess'"):
        _ = room.asess


@pytest.mark.parametrize(
    "entered_by",
    [
        "import checkface as cf",
        "import checkface.rules.engine, checkface as cf",
        "import checkface as cf; cf.assess",
        "import checkface as cf; cf.examine",
        "from checkface import rules; import checkface as cf; assert rules is cf.rules",
        "import checkface.rules.engine as engine, checkface as cf; assert engine.rules() == cf.rules()",
    ],
)
def test_the_rule_book_is_asked_by_its_name_whatever_was_imported_first(entered_by: str) -> None:
    assert fresh(f"{entered_by}; print(len(cf.rules()))") == len(cf.rules()) > 100


def test_a_star_import_brings_them_all() -> None:
    names = fresh("from checkface import *; import json; print(json.dumps([n for n in dir() if n[0] != '_']))")
    assert set(cf.__all__) <= set(names)


@pytest.mark.parametrize(
    "part", ["amounts.read_words", "dates.read", "micr.read", "routing.read", "identity.read_keyed"]
)
def test_a_part_alone_waits_for_no_model_and_no_rule(part: str) -> None:
    loaded = fresh(f"import checkface, sys, json; checkface.{part}; print(json.dumps(list(sys.modules)))")
    assert not {"pydantic", "checkface.rules", "checkface.tender"} & set(loaded)
