"""The README is run: its sessions, its Python, its commands."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import make_day
import pytest

import checkface as cf
from checkface.rules import PILLARS

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```(\w+)\n(.*?)```", README, re.DOTALL)


def run(arguments: list[str]) -> str:
    plain = {**os.environ, "COLUMNS": "90", "NO_COLOR": "1", "PYTHONUTF8": "1"}
    done = subprocess.run(
        [sys.executable, "-m", *arguments], cwd=ROOT, env=plain, capture_output=True, text=True, check=True
    )
    return done.stdout


def test_the_session_at_a_terminal_is_what_the_program_prints() -> None:
    (session,) = [text for kind, text in BLOCKS if kind == "console"]
    steps = re.findall(r"^\$ (.*)\n((?:(?!\$ ).*\n)*)", session, re.MULTILINE)
    assert len(steps) == 2
    for command, shown in steps:
        assert run(shlex.split(command)).rstrip() == shown.rstrip()
    (sound, swapped) = (shown for _, shown in steps)
    assert "rests on" in sound
    assert "^^^" in swapped


def test_the_eight_lines_of_python_print_what_stands_below_them() -> None:
    (code,) = [text for kind, text in BLOCKS if kind == "python"]
    (printed,) = [text for kind, text in BLOCKS if kind == "text"]
    assert len([line for line in code.splitlines() if line]) <= 8
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    assert done.stdout == printed


@pytest.mark.parametrize(
    "ending", ["checkface audit data/demo/saturday.csv --policy data/demo/house.toml", "pytest -q -n auto"]
)
def test_the_two_commands_are_one_line_each(ending: str) -> None:
    commands = [text.strip() for kind, text in BLOCKS if kind == "sh"]
    assert [c for c in commands if c.startswith("python3 -m venv .venv && ") and c.endswith(ending) and "\n" not in c]


def test_the_auditors_command_finds_what_is_shown() -> None:
    (command,) = [text for kind, text in BLOCKS if kind == "sh" and "--across" in text]
    assert make_day.command(make_day.build()) in re.sub(r"\s*\\\n\s*", " ", command)
    (shown,) = [text for kind, text in BLOCKS if kind == "output"]
    printed = run(shlex.split(make_day.command(make_day.build()))).splitlines()
    assert len(shown.splitlines()) >= 6
    assert [line for line in shown.splitlines() if line not in printed] == []


def test_the_pillars_it_lists_are_those_of_the_book_and_their_policy_is_one() -> None:
    text = " ".join(README.split())
    listed = re.search(r"twelve things must.*?speak for it: (.*?)\. The answer", text)
    assert listed
    assert len(re.split(r", | and ", listed[1])) == len(PILLARS) == 12
    (unseen,) = [cf.Policy.parse(text).unseen for kind, text in BLOCKS if kind == "toml" and "[unseen]" in text]
    assert (unseen.wording, unseen.identification, unseen.date) == ("clerk", "refer", "keep")


def test_what_it_says_of_limits_is_what_is_built_in() -> None:
    limits = cf.Policy().limits
    assert (limits.house, limits.cash_back) == (500_00, 50_00)
    assert re.search(r"Above \$500\.00,\s+or \$50\.00 more than the goods", README)


def test_the_day_has_as_many_checks_as_it_says() -> None:
    assert f"Saturday of {len(make_day.build().rows)} checks" in README


def test_every_command_of_the_table_exists() -> None:
    listed = {
        name
        for row in re.findall(r"^\| `checkface ([^|]*)\|", README, re.MULTILINE)
        for name in re.findall(r"[a-z]+", row)
    }
    known = run(["checkface", "--help"])
    for name in (
        "examine",
        "audit",
        "read",
        "rules",
        "explain",
        "policy",
        "tables",
        "schema",
        "till",
        "history",
        "draw",
        "lesson",
        "serve",
    ):
        assert name in listed
        assert re.search(rf"^  {name}\b", known, re.MULTILINE), name
