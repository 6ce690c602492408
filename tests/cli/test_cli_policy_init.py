"""``checkface policy init``: the few things a house must decide, by options or at a terminal."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

import checkface as cf
from checkface.cli import main
from checkface.policy import UNNAMED

ALL = [
    "--name", "Quillfeather Grocery", "--name", "Quillfeather", "--state", "il", "--limit", "300.00",
    "--cash-back", "none", "--convert", "personal", "--identification", "Driver's License", "--identification", "passport",
    "--unseen", "clerk", "--unseen", "identification=refer",
]  # fmt: skip


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("sys.stdin", io.StringIO())


def written(capsys: pytest.CaptureFixture[str], *words: str) -> cf.Policy:
    assert main(["policy", "init", *words]) == 0
    return cf.Policy.parse(capsys.readouterr().out)


def test_every_answer_by_an_option_needs_no_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    house = written(capsys, *ALL)
    assert (house.name, house.house.name, house.state) == ("Quillfeather Grocery", "Quillfeather Grocery", "IL")
    assert house.payee.names == ("Quillfeather Grocery", "Quillfeather")
    assert (house.limits.house, house.limits.cash_back) == (30_000, None)
    assert house.identity.accepted_kinds == ("drivers-license", "passport")
    assert house.unseen.model_dump() == dict.fromkeys(house.unseen.model_dump(), "clerk") | {"identification": "refer"}


def test_yes_alone_is_the_policy_that_is_built_in_and_says_what_is_missing(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["policy", "init", "--yes"]) == 0
    out, err = capsys.readouterr()
    assert cf.Policy.parse(out) == cf.Policy()
    assert err == f"{UNNAMED}\n"


def test_nobody_is_identified_and_nothing_converted_where_the_house_says_none(
    capsys: pytest.CaptureFixture[str],
) -> None:
    house = written(capsys, "--yes", "--convert", "none", "--identification", "none", "--limit", "none")
    assert (house.kinds.convertible, house.identity.required, house.limits.house) == ((), False, None)


def test_a_file_is_written_once_has_a_comment_for_each_section_and_passes_the_check(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["policy", "init", "house.toml", *ALL]) == 0
    assert capsys.readouterr() == ("house.toml: written.\n", "")
    lines = Path("house.toml").read_text(encoding="utf-8").splitlines()
    heads = [number for number, line in enumerate(lines) if line.startswith("[")]
    assert len(heads) == 6
    assert all(lines[number + 1].startswith("# ") for number in heads)
    assert main(["policy", "check", "house.toml"]) == 0
    assert capsys.readouterr().out == "house.toml: no mistake found.\n"
    assert main(["policy", "init", "house.toml", *ALL]) == 2
    assert capsys.readouterr().err == (
        "checkface: house.toml: Expected the name of a new file, read one that is there.\n"
    )


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--yes", "--state", "Texas"], "--state: Expected the two capital letters of a state, read other text."),
        (["--yes", "--limit", "5x"], '--limit: Expected dollars as text, such as "45.10", read something else.'),
        (["--yes", "--convert", "money-order"], "--convert: Expected a kind that a house may convert"),
        (["--yes", "--unseen", "payee=perhaps"], "--unseen: Expected 'keep', 'refer' or 'clerk', read other text."),
        (["--yes", "--unseen", "payer=keep"], "--unseen: Expected a known key, read 'payer'; the nearest known key is 'payee'"),
        (["--limit", "5.00"], "Expected --name, --state, --cash-back, --convert, --identification, --unseen, or --yes"),
    ],
)  # fmt: skip
def test_a_mistake_names_the_option(words: list[str], sentence: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["policy", "init", *words]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"checkface: {sentence}")


def test_at_a_terminal_it_asks_what_is_not_given_and_asks_again(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    answers = "Example Foods, Inc.; Example\nTexas\nTX\n\n20\npersonal; business\n\n\n"
    monkeypatch.setattr("sys.stdin", Terminal(answers))
    assert main(["policy", "init", "--limit", "75.00"]) == 0
    out, err = capsys.readouterr()
    house = cf.Policy.parse(out)
    assert house.payee.names == ("Example Foods, Inc.", "Example")
    assert (house.state, house.limits.house, house.limits.cash_back) == ("TX", 7_500, 5_000)
    assert house.kinds.convertible == ("personal", "business")
    assert house.unseen == cf.Policy().unseen
    assert err.count("State where the counter stands") == 2
    assert "Largest check" not in err


def test_a_terminal_that_goes_away_is_a_failure(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("sys.stdin", Terminal("Example Foods\n"))
    assert main(["policy", "init", "house.toml"]) == 2
    assert capsys.readouterr().err.endswith("Expected an answer for --state, read the end of stdin.\n")
    assert not Path("house.toml").exists()


def test_check_show_and_every_report_say_that_the_house_is_not_named(capsys: pytest.CaptureFixture[str]) -> None:
    Path("house.toml").write_text('state = "IL"\n', encoding="utf-8")
    assert main(["policy", "check", "house.toml"]) == 0
    assert capsys.readouterr().out == f"house.toml: no mistake found.\nhouse.toml: {UNNAMED}\n"
    assert main(["policy", "show", "house.toml"]) == 0
    assert f"# {UNNAMED}" in capsys.readouterr().out.splitlines()
    Path("day.csv").write_text("id,micr\n1,(illegible)\n", encoding="utf-8")
    assert main(["audit", "day.csv", "--policy", "house.toml"]) == 0
    assert UNNAMED in capsys.readouterr().err.splitlines()
    for form in "text", "plain":
        main(["examine", "--payee", "", "--policy", "house.toml", "--format", form])
        assert UNNAMED in " ".join(capsys.readouterr().out.split())


def test_a_named_house_is_not_warned_of(capsys: pytest.CaptureFixture[str]) -> None:
    Path("house.toml").write_text('[payee]\nnames = ["Quillfeather Grocery"]\n', encoding="utf-8")
    main(["policy", "check", "house.toml"])
    main(["policy", "show", "house.toml"])
    Path("day.csv").write_text("id,micr\n1,(illegible)\n", encoding="utf-8")
    main(["audit", "day.csv", "--policy", "house.toml"])
    main(["examine", "--payee", "", "--policy", "house.toml"])
    assert UNNAMED[:30] not in "".join(capsys.readouterr())
